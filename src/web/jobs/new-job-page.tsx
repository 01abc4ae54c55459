import '../styles/plan.css';
import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { useLocation } from 'wouter';
import { api, query, type Schemas } from '../api/client.js';
import { Field } from '../ui/field.js';
import { PageHead } from '../ui/page-head.js';
import { SkidPlace } from '../ui/skid-place.js';
import { Loaded } from '../ui/states.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { useRequestKey } from '../ui/use-request-key.js';
import { weekday } from '../visits/weekday.js';
import { jobWords } from '../words/jobs.js';
import { visitWords } from '../words/visits.js';
import { words } from '../words.js';

type Due = Schemas['DueView'];

const MOST = 50;

/** A job made by hand: of lines of the due list of one skid, of tasks in own words, or both. */
export default function NewJobPage({ skidId }: { skidId: string }) {
  const skid = query.useQuery('get', '/api/skids/{id}', { params: { path: { id: skidId } } });
  const dues = query.useQuery('get', '/api/dues', { params: { query: { skidId, limit: MOST } } });
  return (
    <Loaded of={skid} what={words.skid.what}>
      {({ name, siteName }) => (
        <>
          <PageHead over={<SkidPlace skidId={skidId} skidName={name} siteName={siteName} />} title={jobWords.makeFor(name)} />
          <section className="block">
            <Loaded of={dues} what={words.dues.what}>
              {({ items }) => <NewJobForm skidId={skidId} dues={items.filter(({ jobId }) => jobId === null)} />}
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

function NewJobForm({ skidId, dues }: { skidId: string; dues: readonly Due[] }) {
  const keyOf = useRequestKey();
  const client = useQueryClient();
  const [, go] = useLocation();
  const [dueIds, setDueIds] = useState<readonly string[]>([]);
  const form = useEntries({
    start: { title: '', tasks: '', request: '', bestOn: '', kind: 'service' },
    check: ({ tasks }) => (dueIds.length + linesOf(tasks).length === 0 ? { tasks: jobWords.needTasks } : {}),
    fieldAt: (pointer) => pointer.split('/')[1] ?? pointer,
    send: ({ title, tasks, request, bestOn, kind }) => {
      const body = {
        skidId,
        kind: kind === 'follow-up' ? ('follow-up' as const) : ('service' as const),
        request: request.trim(),
        dueIds: [...dueIds],
        tasks: linesOf(tasks).map((task) => ({ task })),
        ...(title.trim() === '' ? {} : { title: title.trim() }),
        ...(bestOn === '' ? {} : { bestOn }),
      };
      return api.POST('/api/jobs', { params: { header: keyOf(body) }, body });
    },
    onDone: (job) => {
      void client.invalidateQueries();
      if (job !== undefined) go(`/jobs/${job.id}`);
    },
  });
  const toggle = (id: string) => setDueIds((before) => (before.includes(id) ? before.filter((each) => each !== id) : [...before, id]));
  return (
    <form noValidate className="narrow" onSubmit={form.submit}>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      {dues.length > 0 && (
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
      <Field {...form.field('tasks')} label={jobWords.tasks} hint={jobWords.tasksHint}>
        {(props) => <textarea {...props} {...form.control('tasks')} rows={3} />}
      </Field>
      <Field {...form.field('title')} label={jobWords.jobTitle} hint={jobWords.titleHint}>
        {(props) => <input {...props} {...form.control('title')} autoComplete="off" />}
      </Field>
      <Field {...form.field('request')} label={jobWords.request}>
        {(props) => <textarea {...props} {...form.control('request')} rows={3} />}
      </Field>
      <Field {...form.field('bestOn')} label={jobWords.day}>
        {(props) => <input {...props} {...form.control('bestOn')} type="date" />}
      </Field>
      <Field {...form.field('kind')} label={jobWords.kind}>
        {(props) => (
          <select {...props} {...form.control('kind')}>
            <option value="service">{jobWords.kinds.service}</option>
            <option value="follow-up">{jobWords.followUp}</option>
          </select>
        )}
      </Field>
      <div className="row">
        <button type="submit" className="main-button" disabled={form.isSending}>
          {jobWords.makeNow}
        </button>
      </div>
    </form>
  );
}
