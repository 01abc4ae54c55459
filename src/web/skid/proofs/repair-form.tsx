import { useState } from 'react';
import { api, query, type Schemas } from '../../api/client.js';
import { number } from '../../format.js';
import { RecordForm } from '../../registry/record-form.js';
import { fromLocalField, toLocalField } from '../../site-time.js';
import { Loaded } from '../../ui/states.js';
import { useRequestKey } from '../../ui/use-request-key.js';
import { proofWords } from '../../words/proofs.js';
import { words } from '../../words.js';
import { Cautions } from './cautions.js';

const say = proofWords.repair;

/** Records fibres of a module that were closed, and says what that does to the active area. */
export function RepairForm({ skidId, timeZone }: { skidId: string; timeZone: string }) {
  const keyOf = useRequestKey();
  const [now] = useState(() => toLocalField(Date.now(), timeZone));
  const positions = query.useQuery('get', '/api/positions', { params: { query: { skidId, limit: 200 } } });
  return (
    <>
      <Cautions lines={say.cautions} />
      <Loaded of={positions} what={words.parts.what}>
        {({ items }) => {
          const modules = items.filter(({ kind, endedOn }) => kind === 'module' && endedOn === null);
          if (modules.length === 0) return <p>{say.noModules}</p>;
          return (
            <RecordForm
              fields={[
                {
                  name: 'positionId',
                  label: say.module,
                  required: true,
                  options: [{ value: '', label: words.choose }, ...modules.map(({ id, name }) => ({ value: id, label: name }))],
                },
                { name: 'at', label: proofWords.at, hint: words.events.atHint(timeZone), type: 'time', required: true, start: now },
                { name: 'fibres', label: say.fibres, type: 'number', required: true },
                { name: 'note', label: proofWords.note, type: 'lines' },
              ]}
              button={proofWords.writeDown}
              send={({ at, ...told }: Schemas['FibreRepairDto']) => {
                const body = { ...told, at: fromLocalField(at ?? '', timeZone)?.toISOString() ?? at ?? null };
                return api.POST('/api/skids/{skidId}/fibre-repairs', { params: { path: { skidId }, header: keyOf(body) }, body });
              }}
              result={({ fibres, positionName, areaLostM2 }: Schemas['FibreRepairView']) => (
                <p className="told">
                  <strong>{say.closed(say.fibre(number(fibres)), positionName)}</strong> {areaLostM2 === null ? say.noArea : say.area(number(areaLostM2, 2))}{' '}
                  {say.again}
                </p>
              )}
            />
          );
        }}
      </Loaded>
    </>
  );
}
