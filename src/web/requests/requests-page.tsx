import { Link } from 'wouter';
import { query } from '../api/client.js';
import { PageHead } from '../ui/page-head.js';
import { Pager, usePaging } from '../ui/paging.js';
import { Sheet } from '../ui/sheet.js';
import { Empty, Loaded } from '../ui/states.js';
import { requestWords as said } from '../words/requests.js';
import { REQUEST_COLUMNS } from './request-columns.js';

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
