import { api, query, type Schemas } from '../api/client.js';
import { ifMatch } from '../api/if-match.js';
import { minutes, moment } from '../format.js';
import { SeverityWord } from '../jobs/job-columns.js';
import { RecordForm } from '../registry/record-form.js';
import { useMay, useSession } from '../session/session.js';
import { Refusal } from '../ui/refusal.js';
import { Loaded } from '../ui/states.js';
import { useCall } from '../ui/use-call.js';
import { useRequestKey } from '../ui/use-request-key.js';
import { breakdownWords } from '../words/breakdowns.js';
import { words } from '../words.js';
import { editFields, TIMES, telephoneFields } from './failure-fields.js';
import { toFields, toMoments } from './site-moments.js';

type Breakdown = Schemas['BreakdownView'];

const say = breakdownWords;

/** Of the job of a breakdown: who has it, help by telephone, how long the skid stood still, and what was found. */
export function BreakdownSection({ jobId }: { jobId: string }) {
  const breakdown = query.useQuery('get', '/api/jobs/{id}/breakdown', { params: { path: { id: jobId } } });
  return (
    <Loaded of={breakdown} what={say.one}>
      {(found) => (
        <>
          <Known breakdown={found} />
          <Telephone breakdown={found} />
        </>
      )}
    </Loaded>
  );
}

const isOpen = ({ state }: Breakdown) => state !== 'finished' && state !== 'dropped';

function Known({ breakdown }: { breakdown: Breakdown }) {
  const may = useMay();
  const { jobId, version, timeZone } = breakdown;
  return (
    <section className="block">
      <h2>{say.known}</h2>
      <dl className="pairs">
        {factsOf(breakdown).map(({ name, value }) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd className="text">{value}</dd>
          </div>
        ))}
      </dl>
      {may.doWork && isOpen(breakdown) && <Take breakdown={breakdown} />}
      {may.doWork && (
        <details className="more no-print">
          <summary>{say.edit}</summary>
          <RecordForm
            key={version}
            fields={editFields(timeZone)}
            record={toFields(breakdown, TIMES, timeZone)}
            button={say.save}
            send={(body: Record<string, unknown>) =>
              api.PATCH('/api/jobs/{id}/breakdown', {
                params: { path: { id: jobId } },
                headers: ifMatch({ version }),
                body: toMoments(body, TIMES, timeZone) as Schemas['BreakdownEditDto'],
              })
            }
          />
        </details>
      )}
    </section>
  );
}

const factsOf = (one: Breakdown) => [
  { name: say.facts.severity, value: <SeverityWord severity={one.severity} /> },
  { name: say.facts.taken, value: one.takenBy === null ? say.nobody : say.takenAt(one.takenBy, moment(one.takenAt, one.timeZone)) },
  { name: say.facts.source, value: say.sources[one.source] ?? one.source },
  { name: say.facts.noticed, value: moment(one.noticedAt, one.timeZone) },
  { name: say.facts.position, value: one.positionName ?? say.wholeSkid },
  { name: say.facts.downFrom, value: moment(one.downFrom, one.timeZone) },
  { name: say.facts.restored, value: moment(one.restoredAt, one.timeZone) },
  { name: say.facts.downTime, value: one.downTime || words.none },
  { name: say.facts.repair, value: one.repairMinutes === null ? words.none : minutes(one.repairMinutes) },
  ...(one.endedBy === null ? [] : [{ name: say.facts.ended, value: say.endedBy[one.endedBy] ?? one.endedBy }]),
  { name: say.facts.mode, value: one.failureMode ?? say.unknown },
  { name: say.facts.mechanism, value: one.mechanism === null ? say.unknown : one.mechanismInWords },
  ...(one.cause === '' ? [] : [{ name: say.facts.cause, value: one.cause }]),
  ...(one.remedy === '' ? [] : [{ name: say.facts.remedy, value: one.remedy }]),
];

/** "I take it": from then on nobody else is called. */
function Take({ breakdown: { jobId, takenBy } }: { breakdown: Breakdown }) {
  const { name } = useSession();
  const { call, isBusy, problem } = useCall();
  if (takenBy === name) return null;
  const take = () => api.POST('/api/jobs/{id}/take', { params: { path: { id: jobId } }, body: { takeOver: takenBy !== null } });
  return (
    <div className="row no-print">
      <button type="button" className={takenBy === null ? 'main-button' : undefined} disabled={isBusy} onClick={() => void call(take)}>
        {takenBy === null ? say.take : say.takeOver(takenBy)}
      </button>
      <Refusal problem={problem} />
    </div>
  );
}

function Telephone({ breakdown }: { breakdown: Breakdown }) {
  const may = useMay();
  const keyOf = useRequestKey();
  const { jobId, telephone, timeZone, version } = breakdown;
  return (
    <section className="block">
      <h2>{say.telephone}</h2>
      <p className={telephone === '' ? 'aside' : 'text'}>{telephone === '' ? say.telephoneNone : telephone}</p>
      {may.doWork && isOpen(breakdown) && (
        <details className="more no-print">
          <summary>{say.telephoneAdd}</summary>
          <RecordForm
            key={version}
            fields={telephoneFields(timeZone)}
            button={say.writeDown}
            send={(entries: Record<string, unknown>) => {
              const body = { ...toMoments(entries, TIMES, timeZone), ended: entries.ended === 'yes' } as Schemas['TelephoneDto'];
              return api.POST('/api/jobs/{id}/telephone', { params: { path: { id: jobId }, header: keyOf([version, body]) }, body });
            }}
          />
        </details>
      )}
    </section>
  );
}
