import '../styles/plan.css';
import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { useLocation } from 'wouter';
import { SEVERITIES, SEVERITY_LABELS } from '../../shared/work.js';
import { api, query, type Schemas } from '../api/client.js';
import { ifMatch } from '../api/if-match.js';
import { Field } from '../ui/field.js';
import { Opened } from '../ui/opened.js';
import { PageHead } from '../ui/page-head.js';
import { SkidPlace } from '../ui/skid-place.js';
import { Loaded } from '../ui/states.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { useRequestKey } from '../ui/use-request-key.js';
import { weekday } from '../visits/weekday.js';
import { breakdownWords } from '../words/breakdowns.js';
import { jobWords } from '../words/jobs.js';
import { visitWords } from '../words/visits.js';
import { words } from '../words.js';
import { AfterField } from './after-field.js';
import { SheetsToDo } from './sheets-to-do.js';

type Due = Schemas['DueView'];

const MOST = 50;

/** A job made by hand: of lines of the due list of one skid, of task sheets, of tasks in own words; or, with a severity, a breakdown. */
export default function NewJobPage({ skidId }: { skidId: string }) {
  const skid = query.useQuery('get', '/api/skids/{id}', { params: { path: { id: skidId } } });
  const dues = query.useQuery('get', '/api/dues', { params: { query: { skidId, limit: MOST } } });
  return (
    <Loaded of={skid} what={words.skid.what}>
      {({ name, siteName, clientId }) => (
        <>
          <PageHead over={<SkidPlace skidId={skidId} skidName={name} siteName={siteName} />} title={jobWords.makeFor(name)} />
          <section className="block">
            <Loaded of={dues} what={words.dues.what}>
              {({ items }) => <NewJobForm skidId={skidId} clientId={clientId} dues={items.filter(({ jobId }) => jobId === null)} />}
            </Loaded>
          </section>
        </>
      )}
    </Loaded>
  );
}

const linesOf = (text: string) =>
  text
    .split('\n')
    .map((line) => line.trim())
    .filter(Boolean);

function NewJobForm({ skidId, clientId, dues }: { skidId: string; clientId: string; dues: readonly Due[] }) {
  const keyOf = useRequestKey();
  const client = useQueryClient();
  const [, go] = useLocation();
  const [dueIds, setDueIds] = useState<readonly string[]>([]);
  const [sheets, setSheets] = useState<readonly Schemas['TaskSheetHeadView'][]>([]);
  const positions = query.useQuery('get', '/api/positions', { params: { query: { skidId, limit: 200 } } });
  const form = useEntries({
    start: { severity: '', positionId: '', title: '', tasks: '', request: '', bestOn: '', kind: 'service', afterJobId: '' },
    check: ({ tasks, title, severity }) => {
      if (severity !== '') return title.trim() === '' ? { title: breakdownWords.needTitle } : {};
      return dueIds.length + sheets.length + linesOf(tasks).length === 0 ? { tasks: jobWords.needTasks } : {};
    },
    fieldAt: (pointer) => pointer.split('/')[1] ?? pointer,
    send: ({ severity, positionId, title, tasks, request, bestOn, kind, afterJobId }) => {
      const found = SEVERITIES.find((one) => one === severity);
      const at = positionId === '' ? {} : { positionId };
      const told = { skidId, request: request.trim() };
      if (found !== undefined) return breakDown({ ...told, ...at, severity: found, title: title.trim() }, bestOn, keyOf);
      const body = {
        ...told,
        kind: kind === 'follow-up' ? ('follow-up' as const) : ('service' as const),
        dueIds: [...dueIds],
        tasks: [...sheets.map(({ id, task }) => ({ task, taskSheetId: id, ...at })), ...linesOf(tasks).map((task) => ({ task, ...at }))],
        ...(title.trim() === '' ? {} : { title: title.trim() }),
        ...(bestOn === '' ? {} : { bestOn }),
        ...(afterJobId === '' ? {} : { afterJobId }),
      };
      return api.POST('/api/jobs', { params: { header: keyOf(body) }, body });
    },
    onDone: (job) => {
      void client.invalidateQueries();
      if (job !== undefined) go(`/jobs/${job.id}`);
    },
  });
  const isBrokenDown = form.entries.severity !== '';
  const toggle = (id: string) => setDueIds((before) => (before.includes(id) ? before.filter((each) => each !== id) : [...before, id]));
  return (
    <form noValidate className="narrow" onSubmit={form.submit}>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <Field {...form.field('severity')} label={jobWords.howBad} hint={isBrokenDown ? breakdownWords.atOnce : undefined}>
        {(props) => (
          <select {...props} {...form.control('severity')}>
            <option value="">{jobWords.planned}</option>
            {SEVERITIES.map((each) => (
              <option key={each} value={each}>
                {`${SEVERITY_LABELS[each]}: ${breakdownWords.meaning[each].charAt(0).toLowerCase()}${breakdownWords.meaning[each].slice(1)}`}
              </option>
            ))}
          </select>
        )}
      </Field>
      {!isBrokenDown && dues.length > 0 && (
        <fieldset className="group crew">
          <legend>{jobWords.dues}</legend>
          {dues.map((due) => (
            <label key={due.id} className="tick">
              <input type="checkbox" checked={dueIds.includes(due.id)} onChange={() => toggle(due.id)} />
              <span>
                {[due.task, due.positionName].filter(Boolean).join(', ')}
                {due.bestOn !== null && <small>{visitWords.bestOn(weekday(due.bestOn))}</small>}
              </span>
            </label>
          ))}
        </fieldset>
      )}
      {!isBrokenDown && (
        <>
          <SheetsToDo chosen={sheets} choose={setSheets} />
          <Field {...form.field('tasks')} label={jobWords.ownTasks} hint={jobWords.tasksHint}>
            {(props) => <textarea {...props} {...form.control('tasks')} rows={3} />}
          </Field>
        </>
      )}
      <Field {...form.field('positionId')} label={breakdownWords.position} hint={isBrokenDown ? undefined : jobWords.positionHint}>
        {(props) => (
          <select {...props} {...form.control('positionId')}>
            <option value="">{breakdownWords.wholeSkid}</option>
            {positions.data?.items.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        )}
      </Field>
      <Field
        {...form.field('title')}
        label={isBrokenDown ? breakdownWords.whatFails : jobWords.jobTitle}
        hint={isBrokenDown ? breakdownWords.whatHint : jobWords.titleHint}
      >
        {(props) => <input {...props} {...form.control('title')} autoComplete="off" maxLength={160} />}
      </Field>
      <Field {...form.field('request')} label={isBrokenDown ? breakdownWords.more : jobWords.request}>
        {(props) => <textarea {...props} {...form.control('request')} rows={3} />}
      </Field>
      <Field {...form.field('bestOn')} label={jobWords.day}>
        {(props) => <input {...props} {...form.control('bestOn')} type="date" />}
      </Field>
      {!isBrokenDown && (
        <Field {...form.field('kind')} label={jobWords.kind}>
          {(props) => (
            <select {...props} {...form.control('kind')}>
              <option value="service">{jobWords.kinds.service}</option>
              <option value="follow-up">{jobWords.followUp}</option>
            </select>
          )}
        </Field>
      )}
      {!isBrokenDown && (
        <Opened summary={jobWords.order} what={jobWords.what}>
          <AfterField
            clientId={clientId}
            now={null}
            field={form.field('afterJobId')}
            value={form.entries.afterJobId}
            onChoose={(afterJobId) => form.setEntries((before) => ({ ...before, afterJobId }))}
          />
        </Opened>
      )}
      <div className="row">
        <button type="submit" className="main-button" disabled={form.isSending}>
          {isBrokenDown ? breakdownWords.reportNow : jobWords.makeNow}
        </button>
      </div>
    </form>
  );
}

/** What failed is reported as a breakdown, so that whoever is on call is told; the day that was chosen is set on its job. Sent again, nothing happens twice. */
async function breakDown(body: Schemas['BreakdownDto'], bestOn: string, keyOf: ReturnType<typeof useRequestKey>) {
  const { data, error, response } = await api.POST('/api/breakdowns', { params: { header: keyOf(body) }, body });
  if (data === undefined) return { error, response };
  const path = { id: data.jobId };
  if (bestOn !== '') return api.PATCH('/api/jobs/{id}', { params: { path }, headers: ifMatch(data), body: { bestOn } });
  return { data: { id: data.jobId }, response };
}
