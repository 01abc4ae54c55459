import '../styles/plan.css';
import { Link } from 'wouter';
import { query, type Schemas } from '../api/client.js';
import { problemOf } from '../api/problem.js';
import { BreakdownSection } from '../breakdowns/breakdown-section.js';
import { day, minutes, moment } from '../format.js';
import { useMay } from '../session/session.js';
import { PageHead } from '../ui/page-head.js';
import { SkidPlace } from '../ui/skid-place.js';
import { Failed, Loading } from '../ui/states.js';
import { breakdownWords } from '../words/breakdowns.js';
import { jobWords } from '../words/jobs.js';
import { SeverityWord } from './job-columns.js';
import { JobEdit } from './job-edit.js';
import { JobChanges, JobNotes } from './job-notes.js';
import { JobInOrder, JobsInOrder } from './job-order.js';
import { JobStateWord } from './job-state.js';
import { JobTasks } from './job-tasks.js';
import { MoveSection } from './move-section.js';
import { PhotoSection } from './photo-section.js';
import { ReportSection } from './report-section.js';

type Job = Schemas['JobDetailView'];

export default function JobPage({ jobId }: { jobId: string }) {
  const asked = query.useQuery('get', '/api/jobs/{id}', { params: { path: { id: jobId } } });
  if (asked.data === undefined) {
    if (!asked.isError) return <Loading what={jobWords.one} />;
    return (
      <>
        <PageHead title={problemOf(asked.error).status === 404 ? jobWords.unknown : jobWords.job} />
        <Failed what={jobWords.one} error={asked.error} again={() => void asked.refetch()} />
      </>
    );
  }
  const job = asked.data;
  return (
    <>
      <PageHead over={<SkidPlace {...job} siteName={`${job.siteName}, ${job.clientName}`} />} title={jobWords.named(job.no, job.title)} facts={factsOf(job)} />
      <JobLinks job={job} />
      {job.request !== '' && (
        <section className="block">
          <h2>{jobWords.asked}</h2>
          <p className="text">{job.request}</p>
        </section>
      )}
      {job.kind === 'breakdown' && <BreakdownSection jobId={jobId} />}
      <JobTasks job={job} />
      <MoveSection job={job} />
      <ReportSection job={job} />
      <PhotoSection jobId={jobId} timeZone={job.timeZone} />
      <JobNotes job={job} />
      <JobEdit job={job} />
      <JobChanges job={job} />
    </>
  );
}

function JobLinks({ job }: { job: Job }) {
  const may = useMay();
  const isToDo = job.state !== 'finished' && job.state !== 'dropped';
  return (
    <nav className="links no-print" aria-label={jobWords.links}>
      <ul>
        {may.doWork && isToDo && (
          <li>
            <Link href={`/work/${job.id}`}>{jobWords.sheet}</Link>
          </li>
        )}
        <li>
          <a href={`/api/jobs/${job.id}/report.pdf`}>{jobWords.pdf}</a>
        </li>
        {job.followsJobId !== null && (
          <li>
            <Link href={`/jobs/${job.followsJobId}`}>{jobWords.follows}</Link>
          </li>
        )}
      </ul>
    </nav>
  );
}

const factsOf = (job: Job) => [
  { name: jobWords.facts.state, value: <JobStateWord state={job.state} note={job.stateNote} /> },
  { name: jobWords.facts.kind, value: jobWords.kinds[job.kind] },
  ...(job.severity === null ? [] : [{ name: breakdownWords.severity, value: <SeverityWord severity={job.severity} /> }]),
  ...(job.afterJob === null ? [] : [{ name: jobWords.afterFact, value: <JobInOrder job={job.afterJob} /> }]),
  ...(job.jobsAfter.length === 0 ? [] : [{ name: jobWords.jobsAfter, value: <JobsInOrder jobs={job.jobsAfter} /> }]),
  ...(job.bestOn === null ? [] : [{ name: jobWords.best, value: day(job.bestOn) }]),
  ...(job.latestOn === null ? [] : [{ name: jobWords.latest, value: day(job.latestOn) }]),
  {
    name: jobWords.facts.visit,
    value: job.visitId === null ? jobWords.noVisit : <Link href={`/visits/${job.visitId}`}>{day(job.visitOn)}</Link>,
  },
  ...(job.minutes === null ? [] : [{ name: jobWords.facts.takes, value: minutes(job.minutes) }]),
  { name: jobWords.facts.made, value: jobWords.madeBy(moment(job.createdAt, job.timeZone), job.createdBy) },
  ...(job.finishedAt === null ? [] : [{ name: jobWords.facts.finished, value: jobWords.finished(job.finishedBy, moment(job.finishedAt, job.timeZone)) }]),
];
