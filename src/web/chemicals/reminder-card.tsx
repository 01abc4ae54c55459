import { useState } from 'react';
import { api, type Schemas } from '../api/client.js';
import { ifMatch } from '../api/if-match.js';
import { day, number } from '../format.js';
import type { RecordField } from '../registry/record-fields.js';
import { RecordForm } from '../registry/record-form.js';
import { useMay, useSession } from '../session/session.js';
import { useCall } from '../ui/use-call.js';
import { useRequestKey } from '../ui/use-request-key.js';
import { chemicalWords } from '../words/chemicals.js';
import { DeliveryForm } from './tank-forms.js';

const { supply } = chemicalWords;
type Tank = Schemas['TankCoverView'];

/** What whoever fills a tank must see to, what is on its way, and its receipt. */
export function ReminderCard({ tank, takesDelivery }: { tank: Tank; takesDelivery?: true }) {
  const may = useMay();
  const { role } = useSession();
  const { call, isBusy, problem } = useCall();
  const mayAnnounce = may.enterDips && role !== 'technician';
  const { reminder, awaited } = tank;
  if (tank.suppliedBy !== 'client' || (reminder === null && awaited === null)) return null;
  return (
    <>
      {reminder !== null && (
        <p>
          <strong>{supply.remindedOf}:</strong> {reminder.words}
        </p>
      )}
      {awaited !== null && (
        <p>
          {supply.awaited(number(awaited.volumeL), day(awaited.expectedOn))} {awaited.note}{' '}
          {mayAnnounce && (
            <button
              type="button"
              disabled={isBusy}
              onClick={() => void call(() => api.POST('/api/announcements/{id}/call-off', { params: { path: { id: awaited.id } }, headers: ifMatch(awaited) }))}
            >
              {supply.callOff}
            </button>
          )}
        </p>
      )}
      <p role="status">{problem}</p>
      {awaited === null && mayAnnounce && <AnnounceForm tank={tank} />}
      {awaited !== null && takesDelivery && may.enterDips && (
        <details className="more">
          <summary>{supply.confirm}</summary>
          <DeliveryForm tank={tank} />
        </details>
      )}
    </>
  );
}

function AnnounceForm({ tank: { tankId, tankName, reminder } }: { tank: Tank }) {
  const keyFor = useRequestKey();
  const [fields] = useState<readonly RecordField[]>(() => [
    { name: 'volumeL', label: supply.announcedVolume, type: 'number', required: true, start: reminder === null ? '' : String(reminder.litres) },
    { name: 'expectedOn', label: supply.awaitedOn, type: 'day', required: true },
    { name: 'note', label: supply.note },
  ]);
  return (
    <details className="more no-print">
      <summary>
        {supply.announce} <span className="unseen">{tankName}</span>
      </summary>
      <RecordForm
        fields={fields}
        button={supply.send}
        send={(body: Schemas['AnnouncementDto']) =>
          api.POST('/api/tanks/{tankId}/announcements', { params: { path: { tankId } }, headers: keyFor(body), body })
        }
      />
    </details>
  );
}
