import { Link } from 'wouter';
import { SEVERITY_LABELS, type Severity } from '../../shared/work.js';
import type { Schemas } from '../api/client.js';
import { day, minutes } from '../format.js';
import type { Column } from '../ui/sheet.js';
import type { Chosen } from '../visits/use-chosen.js';
import { jobWords } from '../words/jobs.js';
import { visitWords } from '../words/visits.js';
import { words } from '../words.js';
import { JobStateWord } from './job-state.js';

type Job = Schemas['JobView'];

/** How bad a breakdown is, in words; the two that cannot wait stand out. */
export function SeverityWord({ severity }: { severity: string }) {
  const label = SEVERITY_LABELS[severity as Severity] ?? severity;
  return severity === 'danger' || severity === 'no water' ? <strong>{label}</strong> : label;
}

const name: Column<Job> = {
  name: jobWords.job,
  cell: (job) => (
    <>
      <Link href={`/jobs/${job.id}`}>{job.title}</Link>
      <small>
        {jobWords.no(job.no)}
        {job.toSettle > 0 && (
          <>
            {' · '}
            <strong>{jobWords.toSettle(job.toSettle)}</strong>
          </>
        )}
      </small>
    </>
  ),
};
const nameToChoose = ({ has, toggle }: Chosen): Column<Job> => ({
  name: jobWords.job,
  cell: (job) => (
    <div className="tick tick-line">
      <input type="checkbox" aria-label={visitWords.chooseJob(job.no)} checked={has(job.id)} onChange={() => toggle(job)} />
      <span>{name.cell(job)}</span>
    </div>
  ),
});
const skid: Column<Job> = {
  name: visitWords.skid,
  cell: (job) => (
    <>
      <Link href={`/skids/${job.skidId}`}>{job.skidName}</Link>
      <small>
        {job.siteName}, {job.clientName}
      </small>
    </>
  ),
};
const kind: Column<Job> = {
  name: jobWords.kind,
  cell: (job) => (
    <>
      {jobWords.kinds[job.kind]}
      {job.severity !== null && (
        <small>
          <SeverityWord severity={job.severity} />
        </small>
      )}
    </>
  ),
};
const state: Column<Job> = { name: jobWords.state, cell: (job) => <JobStateWord state={job.state} note={job.stateNote} /> };
const takes: Column<Job> = { name: jobWords.takes, numeric: true, cell: (job) => (job.minutes === null ? words.none : minutes(job.minutes)) };
const best: Column<Job> = { name: jobWords.best, numeric: true, cell: (job) => day(job.bestOn) };
const latest: Column<Job> = { name: jobWords.latest, numeric: true, cell: (job) => day(job.latestOn) };
const visit: Column<Job> = {
  name: jobWords.visit,
  numeric: true,
  cell: (job) => (job.visitId === null ? words.none : <Link href={`/visits/${job.visitId}`}>{day(job.visitOn)}</Link>),
};

export const JOB_COLUMNS: readonly Column<Job>[] = [name, skid, kind, state, best, latest, visit];
export const columnsToPlan = (chosen: Chosen | undefined): readonly Column<Job>[] => [
  chosen === undefined ? name : nameToChoose(chosen),
  skid,
  kind,
  state,
  takes,
  best,
  latest,
];
