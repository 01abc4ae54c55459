import { api, query, type Schemas } from '../api/client.js';
import { ifMatch } from '../api/if-match.js';
import { number } from '../format.js';
import type { RecordField } from '../registry/record-fields.js';
import { RecordForm } from '../registry/record-form.js';
import { useMay } from '../session/session.js';
import { siteToday } from '../site-time.js';
import { Sheet } from '../ui/sheet.js';
import { useCall } from '../ui/use-call.js';
import { useRequestKey } from '../ui/use-request-key.js';
import { chemicalWords } from '../words/chemicals.js';
import { registryWords } from '../words/registry.js';

const said = chemicalWords.tankPage;

/** Everyone who draws from a tank, with what the set points ask for. */
export function TankUsers({ tank, consumers }: { tank: Schemas['TankCoverView']; consumers: readonly Schemas['ConsumerView'][] }) {
  const may = useMay();
  return (
    <section className="block">
      <h2>{said.users}</h2>
      {consumers.length > 0 && (
        <Sheet
          caption={said.users}
          columns={[
            { name: said.userName, cell: ({ name }) => name },
            { name: said.perDay, numeric: true, cell: ({ litresPerDay }) => number(litresPerDay, 1) },
          ]}
          rows={consumers}
          keyOf={({ name }) => name}
        />
      )}
      {may.manage && <OwnUsers tank={tank} />}
    </section>
  );
}

function OwnUsers({ tank: { tankId, siteId, timeZone } }: { tank: Schemas['TankCoverView'] }) {
  const keyFor = useRequestKey();
  const { call, isBusy, problem } = useCall();
  const users = query.useQuery('get', '/api/tanks/{tankId}/users', { params: { path: { tankId }, query: { limit: 200 } } });
  const skids = query.useQuery('get', '/api/skids', { params: { query: { siteId, limit: 200 } } });
  const draw: readonly RecordField[] = [
    { name: 'name', label: said.userName, required: true },
    {
      name: 'skidId',
      label: said.userSkid,
      options: [{ value: '', label: said.outside }, ...(skids.data?.items ?? []).map(({ id, name }) => ({ value: id, label: name }))],
      empty: 'left out',
    },
    { name: 'doseMgL', label: registryWords.fields.dose, type: 'number', empty: 'left out' },
    { name: 'litresPerCeb', label: registryWords.fields.perCeb, type: 'number', empty: 'left out' },
    { name: 'litresPerCip', label: registryWords.fields.perCip, type: 'number', empty: 'left out' },
    { name: 'litresPerDay', label: said.litresPerDay, type: 'number', empty: 'left out' },
    { name: 'sdPerDay', label: said.sdPerDay, type: 'number', empty: 'left out' },
  ];
  return (
    <>
      {users.data?.items.map((user) => (
        <p key={user.id} className="row no-print">
          <button
            type="button"
            disabled={isBusy}
            onClick={() =>
              void call(() =>
                api.POST('/api/tank-users/{id}/end', {
                  params: { path: { id: user.id } },
                  headers: ifMatch(user),
                  body: { on: siteToday(Date.now(), timeZone) },
                }),
              )
            }
          >
            {said.endUser(user.name)}
          </button>
        </p>
      ))}
      <p role="status">{problem}</p>
      <details className="more no-print">
        <summary>{said.addUser}</summary>
        <RecordForm
          fields={draw}
          button={registryWords.save}
          send={(body: Schemas['TankUserDto']) => api.POST('/api/tanks/{tankId}/users', { params: { path: { tankId } }, headers: keyFor(body), body })}
        />
      </details>
    </>
  );
}
