import { lazy, Suspense, useState } from 'react';
import { query, type Schemas } from '../api/client.js';
import { day, moment, number } from '../format.js';
import { REQUEST_COLUMNS } from '../requests/request-columns.js';
import { useMay } from '../session/session.js';
import { lastDays, PeriodFields } from '../ui/period-fields.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty, Loaded, Loading } from '../ui/states.js';
import { requestWords as said } from '../words/requests.js';

const Proof = lazy(() => import('./proofs/proof.js'));

type Test = Schemas['IntegrityTestView'];
type Visit = Schemas['VisitView'];

interface OfSkid {
  readonly skidId: string;
  readonly timeZone: string;
}

/** A form that is fetched when somebody opens it, so that the page stays light. */
function ProofForm({ form, ...of }: OfSkid & { form: keyof typeof said.forms }) {
  const [isOpen, setOpen] = useState(false);
  return (
    <details className="more no-print" onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
      <summary>{said.forms[form]}</summary>
      {isOpen && (
        <Suspense fallback={<Loading what={said.form} />}>
          <Proof form={form} {...of} />
        </Suspense>
      )}
    </details>
  );
}

/** Visits that are to come: a client is shown those that were promised. */
export function VisitsToCome({ skidId }: OfSkid) {
  const [from] = useState(() => new Date().toISOString().slice(0, 10));
  const visits = query.useQuery('get', '/api/visits', { params: { query: { skidId, from, limit: 5 } } });
  const columns: readonly Column<Visit>[] = [
    { name: said.day, cell: (visit) => day(visit.onDay) },
    { name: said.time, cell: (visit) => visit.startTime },
    { name: said.who, cell: (visit) => visit.people.map(({ name }) => name).join(', ') },
    { name: said.noteFrom, wide: true, cell: (visit) => visit.noteToClient },
  ];
  return (
    <section className="block">
      <h2>{said.visits}</h2>
      <Loaded of={visits} what={said.whatVisits}>
        {({ items }) =>
          items.length > 0 ? <Sheet caption={said.visits} columns={columns} rows={items} keyOf={({ id }) => id} /> : <p className="aside">{said.noVisits}</p>
        }
      </Loaded>
    </section>
  );
}

/** Jobs of the skid with what was reported of each. */
export function WorkOfSkid({ skidId }: OfSkid) {
  const jobs = query.useQuery('get', '/api/jobs', { params: { query: { skidId, limit: 10 } } });
  return (
    <section className="block">
      <h2>{said.work}</h2>
      <Loaded of={jobs} what={said.what}>
        {({ items }) =>
          items.length > 0 ? (
            <Sheet caption={said.work} columns={REQUEST_COLUMNS} rows={items} keyOf={({ id }) => id} />
          ) : (
            <p className="aside">{said.noWork}</p>
          )
        }
      </Loaded>
    </section>
  );
}

/** Integrity tests with what they prove, and fibres that were closed. */
export function IntegritySection({ skidId, timeZone }: OfSkid) {
  const may = useMay();
  const tests = query.useQuery('get', '/api/skids/{skidId}/integrity-tests', { params: { path: { skidId }, query: { limit: 10 } } });
  const record = query.useQuery('get', '/api/skids/{skidId}/integrity', { params: { path: { skidId } } });
  const columns: readonly Column<Test>[] = [
    { name: said.tested, cell: (test) => moment(test.at, timeZone) },
    { name: said.outcome, cell: (test) => said.outcomes[test.outcome] ?? test.outcome },
    { name: said.decay, numeric: true, cell: (test) => number(test.decayKpaMin, 2) },
    { name: said.limit, numeric: true, cell: (test) => number(test.controlLimitKpaMin, 2) },
    { name: said.lrv, numeric: true, cell: (test) => number(test.lrv, 2) },
    { name: said.why, wide: true, cell: (test) => [...test.reasons, ...test.nextSteps].join('. ') },
  ];
  const closed = record.data?.modules.filter(({ fibres }) => fibres > 0) ?? [];
  return (
    <section className="block">
      <h2>{said.integrity}</h2>
      <Loaded of={tests} what={said.whatIntegrity}>
        {({ items }) =>
          items.length > 0 ? (
            <Sheet caption={said.integrity} columns={columns} rows={items} keyOf={({ id }) => id} />
          ) : (
            <Empty title={said.noTests}>{null}</Empty>
          )
        }
      </Loaded>
      {closed.length > 0 && (
        <ul className="plain">
          {closed.map(({ positionId, positionName, fibres, mark }) => (
            <li key={positionId}>{[said.fibres(fibres, positionName), mark].filter(Boolean).join('; ')}</li>
          ))}
        </ul>
      )}
      {may.doWork && <ProofForm form="test" skidId={skidId} timeZone={timeZone} />}
      {may.doWork && <ProofForm form="repair" skidId={skidId} timeZone={timeZone} />}
      {may.manage && <ProofForm form="setup" skidId={skidId} timeZone={timeZone} />}
    </section>
  );
}

/** Instruments that were compared with a reference, and how they were found. */
export function CalibrationSection({ skidId, timeZone }: OfSkid) {
  const may = useMay();
  const list = query.useQuery('get', '/api/skids/{skidId}/calibrations', { params: { path: { skidId }, query: { limit: 10 } } });
  const columns: readonly Column<Schemas['CalibrationView']>[] = [
    { name: said.instrument, cell: (each) => each.positionName },
    { name: said.day, cell: (each) => moment(each.at, timeZone) },
    { name: said.found, cell: (each) => each.asFound },
    { name: said.left, cell: (each) => each.asLeft },
    { name: said.next, numeric: true, cell: (each) => day(each.nextOn) },
  ];
  return (
    <section className="block">
      <h2>{said.calibrations}</h2>
      <Loaded of={list} what={said.whatCalibrations}>
        {({ items }) =>
          items.length > 0 ? (
            <Sheet caption={said.calibrations} columns={columns} rows={items} keyOf={({ id }) => id} />
          ) : (
            <p className="aside">{said.noCalibrations}</p>
          )
        }
      </Loaded>
      {may.doWork && <ProofForm form="calibration" skidId={skidId} timeZone={timeZone} />}
    </section>
  );
}

/** A period of the skid as PDF. */
export function ReportToPrint({ skidId }: { skidId: string }) {
  const [period, setPeriod] = useState(() => lastDays(90));
  return (
    <section className="block no-print">
      <h2>{said.print}</h2>
      <p className="hint">{said.printHint}</p>
      <div className="tools period-tools">
        <PeriodFields period={period} onChange={setPeriod} />
        <a className="target" href={`/api/skids/${skidId}/report.pdf?from=${period.from}&to=${period.to}`}>
          {said.open}
        </a>
      </div>
    </section>
  );
}
