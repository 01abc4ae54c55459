import { useQueryClient } from '@tanstack/react-query';
import { Link } from 'wouter';
import { api, type Schemas } from '../api/client.js';
import { ifMatch } from '../api/if-match.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { jobWords } from '../words/jobs.js';
import { AfterField } from './after-field.js';

type Job = Schemas['JobDetailView'];

/** Puts a job after another one, or takes it off. */
export function OrderForm({ job }: { job: Job }) {
  const client = useQueryClient();
  const form = useEntries({
    start: { afterJobId: job.afterJob?.id ?? '' },
    check: () => ({}),
    send: ({ afterJobId }) =>
      api.PATCH('/api/jobs/{id}', { params: { path: { id: job.id } }, headers: ifMatch(job), body: { afterJobId: afterJobId === '' ? null : afterJobId } }),
    onDone: () => void client.invalidateQueries(),
  });
  return (
    <form noValidate className="narrow" onSubmit={form.submit}>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <AfterField
        clientId={job.clientId}
        jobId={job.id}
        now={job.afterJob}
        field={form.field('afterJobId')}
        value={form.entries.afterJobId}
        onChoose={(afterJobId) => form.setEntries({ afterJobId })}
      />
      <div className="row">
        <button type="submit" className="main-button" disabled={form.isSending}>
          {jobWords.save}
        </button>
      </div>
    </form>
  );
}

/** Another job by number and title, with how it stands. */
export function JobInOrder({ job: { id, no, title, state } }: { job: Schemas['JobInOrderView'] }) {
  return (
    <>
      <Link href={`/jobs/${id}`}>{jobWords.named(no, title)}</Link> {jobWords.inState(state)}
    </>
  );
}

export function JobsInOrder({ jobs }: { jobs: readonly Schemas['JobInOrderView'][] }) {
  return (
    <ul className="plain">
      {jobs.map((job) => (
        <li key={job.id}>
          <JobInOrder job={job} />
        </li>
      ))}
    </ul>
  );
}
