import { Link } from 'wouter';
import { query, type Schemas } from '../api/client.js';
import { day, moment } from '../format.js';
import { PageHead } from '../ui/page-head.js';
import { Pager, usePaging } from '../ui/paging.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty, Loaded } from '../ui/states.js';
import { requestWords as said } from '../words/requests.js';
import { words } from '../words.js';

type Job = Schemas['JobView'];

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

/** What a client asked for and what is done at their skids, what is open first. */
export default function RequestsPage() {
  const paging = usePaging('');
  const jobs = query.useQuery(
    'get',
    '/api/jobs',
    { params: { query: { limit: paging.limit, ...(paging.cursor === undefined ? {} : { cursor: paging.cursor }) } } },
    { placeholderData: (before) => before },
  );
  return (
    <>
      <PageHead title={said.title} />
      <section className="block">
        <div className="row no-print">
          <Link className="target" href="/requests/new">
            {said.make}
          </Link>
        </div>
        <Loaded of={jobs} what={said.what}>
          {(list) => (
            <>
              {list.items.length > 0 ? (
                <Sheet caption={said.title} columns={REQUEST_COLUMNS} rows={list.items} keyOf={(job) => job.id} />
              ) : (
                <Empty title={said.none}>{said.noneWhy}</Empty>
              )}
              <Pager paging={paging} list={list} what={said.what} />
            </>
          )}
        </Loaded>
      </section>
    </>
  );
}
