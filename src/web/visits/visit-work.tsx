import { useState } from 'react';
import { Link } from 'wouter';
import { api, type Schemas } from '../api/client.js';
import { day } from '../format.js';
import { JobStateWord } from '../jobs/job-state.js';
import { useMay } from '../session/session.js';
import { Refusal } from '../ui/refusal.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty } from '../ui/states.js';
import { useCall } from '../ui/use-call.js';
import { jobWords } from '../words/jobs.js';
import { visitWords } from '../words/visits.js';
import { words } from '../words.js';
import { AddWorkDialog } from './add-work-dialog.js';

type Visit = Schemas['VisitDetailView'];
type Job = Schemas['VisitJobView'];

/** What the visit is for: jobs are put in and taken out while it is not over. */
export function VisitWork({ visit }: { visit: Visit }) {
  const may = useMay();
  const { call, isBusy, problem } = useCall();
  const [isAdding, setAdding] = useState(false);
  const isOpen = may.manage && visit.state !== 'finished' && visit.state !== 'called off';
  const takeOut = (job: Job) => call(() => api.DELETE('/api/visits/{id}/jobs/{jobId}', { params: { path: { id: visit.id, jobId: job.id } } }));
  const actions: Column<Job> = {
    name: words.people.actions,
    cell: (job) =>
      job.state === 'finished' ? (
        words.none
      ) : (
        <button type="button" disabled={isBusy} onClick={() => void takeOut(job)}>
          {visitWords.takeOut} <span className="unseen">{jobWords.no(job.no)}</span>
        </button>
      ),
  };
  return (
    <section className="block">
      <h2>{visitWords.work}</h2>
      <Refusal problem={problem} />
      {visit.jobs.length === 0 ? (
        <Empty title={visitWords.workNone}>{visitWords.workNoneWhy}</Empty>
      ) : (
        <Sheet caption={visitWords.work} columns={isOpen ? [...COLUMNS, actions] : COLUMNS} rows={visit.jobs} keyOf={(job) => job.id} />
      )}
      {isOpen && (
        <p className="no-print">
          <button type="button" onClick={() => setAdding(true)}>
            {visitWords.addWork}
          </button>
        </p>
      )}
      {isAdding && <AddWorkDialog visit={visit} onClose={() => setAdding(false)} />}
    </section>
  );
}

const COLUMNS: readonly Column<Job>[] = [
  {
    name: visitWords.job,
    cell: (job) => (
      <>
        <Link href={`/jobs/${job.id}`}>{job.title}</Link>
        <small>{jobWords.no(job.no)}</small>
      </>
    ),
  },
  { name: visitWords.skid, cell: (job) => <Link href={`/skids/${job.skidId}`}>{job.skidName}</Link> },
  { name: visitWords.kind, cell: (job) => jobWords.kinds[job.kind] },
  { name: visitWords.state, cell: (job) => <JobStateWord state={job.state} /> },
  { name: visitWords.latest, numeric: true, cell: (job) => day(job.latestOn) },
];
