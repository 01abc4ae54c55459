import { Link } from 'wouter';
import type { Schemas } from '../api/client.js';
import { day, moment } from '../format.js';
import type { Column } from '../ui/sheet.js';
import { requestWords as said } from '../words/requests.js';
import { words } from '../words.js';

type Job = Schemas['JobView'];

/** Requests and work, as their owner wants to know them. */
export const REQUEST_COLUMNS: readonly Column<Job>[] = [
  { name: said.subject, cell: (job) => <Link href={`/requests/${job.id}`}>{job.title}</Link> },
  {
    name: words.fleet.skid,
    cell: (job) => (
      <>
        {job.skidName}
        <small>{job.siteName}</small>
      </>
    ),
  },
  { name: said.state, cell: (job) => said.states[job.state] },
  { name: said.visit, numeric: true, cell: (job) => day(job.visitOn) },
  { name: said.by, cell: (job) => job.createdBy },
  { name: said.day, numeric: true, cell: (job) => moment(job.createdAt, job.timeZone) },
];
