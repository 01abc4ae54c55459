import { useState } from 'react';
import { query, type Schemas } from '../api/client.js';
import { day, number, written } from '../format.js';
import { Dialog } from '../ui/dialog.js';
import { Field } from '../ui/field.js';
import { Opened } from '../ui/opened.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Loaded } from '../ui/states.js';
import { settingWords as said } from '../words/stock-settings.js';
import { words } from '../words.js';
import { amount } from './amount.js';
import { SettingForm } from './setting-form.js';
import { usePlaces } from './use-places.js';

type Setting = Schemas['KeptItemView'];
const MOST = 200;

/** How the item is kept, place by place: what people said of it, and how they say it. */
export function CardSettings({ itemId, unit }: { itemId: string; unit: string }) {
  const settings = query.useQuery('get', '/api/stock-settings', { params: { query: { itemId, limit: MOST } } });
  return (
    <section className="block">
      <h2>{said.title}</h2>
      <p className="hint">{said.note}</p>
      <Loaded of={settings} what={said.what}>
        {({ items }) => (
          <>
            {items.length === 0 ? (
              <p className="aside">{said.none}</p>
            ) : (
              <Sheet caption={said.caption} columns={COLUMNS} rows={items} keyOf={({ placeId }) => placeId} />
            )}
            <Opened summary={said.add} what={said.what}>
              <OtherPlace itemId={itemId} unit={unit} known={items.map(({ placeId }) => placeId)} />
            </Opened>
          </>
        )}
      </Loaded>
    </section>
  );
}

const COLUMNS: readonly Column<Setting>[] = [
  { name: said.place, cell: ({ placeName }) => placeName },
  {
    name: said.levels,
    cell: ({ minimum, maximum, unit }) =>
      [...(minimum === null ? [] : [said.from(amount(minimum, unit))]), ...(maximum === null ? [] : [said.upTo(amount(maximum, unit))])].join(', ') ||
      words.none,
  },
  {
    name: said.asked,
    cell: ({ service, asked }) => (
      <>
        {service === null ? said.usual : said.services[service]}
        {asked !== null && <small>{said.of(written(asked * 100))}</small>}
      </>
    ),
  },
  {
    name: said.review,
    cell: ({ reviewDays }) => (reviewDays === null ? said.usual : reviewDays === 0 ? said.everyMove : said.every(number(reviewDays))),
  },
  { name: said.criticality, cell: ({ criticality }) => (criticality === null ? said.usual : said.critical[criticality]) },
  {
    name: said.by,
    cell: ({ by, at, note }) => (
      <>
        {by}, {day(at?.slice(0, 10) ?? null)}
        {note !== '' && <small>{note}</small>}
      </>
    ),
  },
  { name: said.change, cell: (setting) => <Change setting={setting} /> },
];

function Change({ setting }: { setting: Setting }) {
  const [isOpen, setOpen] = useState(false);
  const { itemId, placeId, placeName, unit } = setting;
  return (
    <>
      <button type="button" className="no-print" onClick={() => setOpen(true)}>
        {said.change}
        <span className="unseen"> {placeName}</span>
      </button>
      {isOpen && (
        <Dialog title={said.changeAt(placeName)} onClose={() => setOpen(false)}>
          {(close) => (
            <>
              <SettingForm of={{ itemId, placeId, unit }} setting={setting} onDone={close} />
              <button type="button" onClick={close}>
                {words.cancel}
              </button>
            </>
          )}
        </Dialog>
      )}
    </>
  );
}

/** Places that nobody said anything of. */
function OtherPlace({ itemId, unit, known }: { itemId: string; unit: string; known: readonly string[] }) {
  const places = usePlaces().filter(({ id, kind }) => ['store', 'van', 'site'].includes(kind) && !known.includes(id));
  const [placeId, setPlaceId] = useState('');
  const chosen = places.find(({ id }) => id === placeId);
  return (
    <>
      <Field id={`place-${itemId}`} label={said.place}>
        {(props) => (
          <select {...props} value={placeId} onChange={({ target }) => setPlaceId(target.value)}>
            <option value="">{words.choose}</option>
            {places.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        )}
      </Field>
      {chosen !== undefined && <SettingForm key={placeId} of={{ itemId, placeId, unit }} onDone={() => setPlaceId('')} />}
    </>
  );
}
