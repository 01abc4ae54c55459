import '../styles/chemicals.css';
import { useState } from 'react';
import { api, type Schemas } from '../api/client.js';
import { day, number } from '../format.js';
import type { RecordField } from '../registry/record-fields.js';
import { RecordForm } from '../registry/record-form.js';
import { fromLocalField, toLocalField } from '../site-time.js';
import { chemicalWords } from '../words/chemicals.js';
import { words } from '../words.js';
import { basesOf, OF_CHLORINE, OF_OTHERS } from './bases.js';

const { form } = chemicalWords;
type Tank = Schemas['TankCoverView'];

/** The time that most entries are about: now, by the clocks at the site. */
function useAtField(timeZone: string): RecordField {
  const [start] = useState(() => toLocalField(Date.now(), timeZone));
  return { name: 'at', label: words.readings.at, hint: words.events.atHint(timeZone), type: 'time', required: true, start };
}

const density = (field: string): RecordField => ({
  name: 'densityKgL',
  label: form.density,
  hint: form.densityHint,
  type: 'number',
  empty: 'left out',
  only: { field, is: ['wt %', 'wt % Cl2', 'wt % NaOCl'] },
});

export function DipForm({ tank }: { tank: Pick<Tank, 'tankId' | 'timeZone'> }) {
  const at = useAtField(tank.timeZone);
  return (
    <RecordForm
      fields={[at, { name: 'levelCm', label: words.events.level, type: 'number', required: true }]}
      button={words.parts.fitButton}
      send={(body: Schemas['DipDto']) =>
        api.POST('/api/tanks/{tankId}/dips', { params: { path: { tankId: tank.tankId } }, body: { ...body, replaceDiffering: false } })
      }
    />
  );
}

/** What came into a tank. The first line is what has gone wrong most often, and worst. */
export function DeliveryForm({ tank }: { tank: Pick<Tank, 'tankId' | 'tankName' | 'chemical' | 'timeZone' | 'awaited' | 'fedFrom' | 'fedFromId'> }) {
  const at = useAtField(tank.timeZone);
  const { awaited, fedFrom, fedFromId } = tank;
  const fields: readonly RecordField[] = [
    { name: 'product', label: form.product, hint: form.productHint, empty: 'left out' },
    { name: 'volumeL', label: words.events.volume, type: 'number', required: true },
    at,
    {
      name: 'strengthBasis',
      label: form.basis,
      hint: form.basisHint,
      options: [{ value: '', label: form.noBasis }, ...basesOf(tank.chemical)],
      empty: 'left out',
    },
    {
      name: 'strengthValue',
      label: form.stated,
      type: 'number',
      empty: 'left out',
      required: true,
      only: { field: 'strengthBasis', is: [...OF_CHLORINE, ...OF_OTHERS] },
    },
    density('strengthBasis'),
    {
      name: 'strengthConfirmed',
      label: form.confirmed,
      options: [
        { value: '', label: form.confirmedNo },
        { value: 'yes', label: form.confirmedYes },
      ],
      empty: 'left out',
      only: { field: 'strengthBasis', is: [...OF_CHLORINE, ...OF_OTHERS] },
    },
    { name: 'lot', label: form.batch, empty: 'left out' },
    { name: 'expiresOn', label: form.expiresOn, type: 'day', empty: 'left out' },
    { name: 'by', label: form.receivedBy, empty: 'left out' },
    ...(fedFrom === null || fedFromId === null
      ? []
      : [
          {
            name: 'fromTankId',
            label: form.fromTank,
            options: [
              { value: fedFromId, label: fedFrom },
              { value: '', label: form.fromLorry },
            ],
            start: fedFromId,
            empty: 'left out',
          } as const,
        ]),
    ...(awaited === null
      ? []
      : [
          {
            name: 'announcementId',
            label: form.announced,
            options: [
              { value: awaited.id, label: form.announcedYes(number(awaited.volumeL), day(awaited.expectedOn)) },
              { value: '', label: form.announcedNo },
            ],
            start: awaited.id,
            empty: 'left out',
          } as const,
        ]),
  ];
  return (
    <>
      <p className="wrong-tank">{form.wrongTank(tank.tankName, tank.chemical)}</p>
      <RecordForm
        fields={fields}
        button={words.parts.fitButton}
        send={({ strengthConfirmed, ...body }: Omit<Schemas['DeliveryDto'], 'strengthConfirmed'> & { strengthConfirmed?: string }) =>
          api.POST('/api/tanks/{tankId}/deliveries', {
            params: { path: { tankId: tank.tankId } },
            body: { ...body, ...(strengthConfirmed === 'yes' ? { strengthConfirmed: true } : {}), replaceDiffering: false },
          })
        }
      />
    </>
  );
}

export function AssayForm({ tank }: { tank: Pick<Tank, 'tankId' | 'chemical' | 'timeZone'> }) {
  const at = useAtField(tank.timeZone);
  const bases = basesOf(tank.chemical);
  return (
    <RecordForm
      fields={[
        at,
        { name: 'value', label: form.measured, type: 'number', required: true },
        { name: 'basis', label: form.basis, options: bases, start: 'g/L' },
        density('basis'),
        { name: 'method', label: form.method },
        { name: 'by', label: form.by, empty: 'left out' },
        { name: 'note', label: words.readings.note, type: 'lines' },
      ]}
      button={words.parts.fitButton}
      send={({ at: local, ...body }: Schemas['AssayDto']) =>
        api.POST('/api/tanks/{tankId}/assays', {
          params: { path: { tankId: tank.tankId } },
          body: { ...body, at: fromLocalField(local, tank.timeZone)?.toISOString() ?? local },
        })
      }
    />
  );
}
