import { api, type Schemas } from '../api/client.js';
import { ifMatch } from '../api/if-match.js';
import type { RecordField } from '../registry/record-fields.js';
import { RecordForm } from '../registry/record-form.js';
import { useMay } from '../session/session.js';
import { Opened } from '../ui/opened.js';
import { jobWords } from '../words/jobs.js';
import { OrderForm } from './job-order.js';

type Job = Schemas['JobDetailView'];

const FIELDS: readonly RecordField[] = [
  { name: 'title', label: jobWords.jobTitle, required: true },
  { name: 'earliestOn', label: jobWords.earliest, type: 'day' },
  { name: 'bestOn', label: jobWords.best, type: 'day' },
  { name: 'latestOn', label: jobWords.latest, type: 'day' },
  { name: 'request', label: jobWords.request, type: 'lines' },
];

/** Title, days, request and order of a job that is not finished. */
export function JobEdit({ job }: { job: Job }) {
  const may = useMay();
  if (!may.manage || job.state === 'finished') return null;
  return (
    <section className="block no-print">
      <details className="more">
        <summary>{jobWords.edit}</summary>
        <RecordForm
          key={job.version}
          fields={FIELDS}
          record={job}
          button={jobWords.save}
          send={(body: Schemas['EditJobDto']) => api.PATCH('/api/jobs/{id}', { params: { path: { id: job.id } }, headers: ifMatch(job), body })}
        />
      </details>
      <Opened summary={jobWords.order} what={jobWords.what}>
        <OrderForm key={job.version} job={job} />
      </Opened>
    </section>
  );
}
