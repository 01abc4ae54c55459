import { Link } from 'wouter';
import { query, type Schemas } from '../api/client.js';
import { day, number } from '../format.js';
import { FindBox } from '../ui/find-box.js';
import { PageHead } from '../ui/page-head.js';
import { Pager, usePaging } from '../ui/paging.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty, Loaded } from '../ui/states.js';
import { useFilter } from '../ui/use-filter.js';
import { outlookWords as said } from '../words/outlooks.js';
import { words } from '../words.js';
import { LimitsOfPart } from './limits-of-part.js';
import { RecordSection } from './record-section.js';

type Coming = Schemas['ComingView'];

const COLUMNS: readonly Column<Coming>[] = [
  {
    name: words.fleet.skid,
    cell: ({ skidId, skidName, siteName, clientName }) => (
      <>
        <Link href={`/skids/${skidId}`}>{skidName}</Link>
        <small>
          {siteName}, {clientName}
        </small>
      </>
    ),
  },
  {
    name: said.subject,
    cell: ({ subject, limitKind }) => (
      <>
        {subject}
        <small>{said.limits[limitKind]}</small>
      </>
    ),
  },
  { name: said.likely, numeric: true, cell: likelyOf },
  { name: said.range, numeric: true, cell: rangeOf },
  { name: said.sure, cell: ({ howSure }) => howSure },
  {
    name: words.reason,
    wide: true,
    cell: ({ reason, limits, waiting, originOn }) => (
      <>
        {reason}
        {limits.length > 0 && <LimitsOfPart limits={limits} />}
        {waiting !== null && <small>{waiting}</small>}
        <small>{said.origin(day(originOn))}</small>
      </>
    ),
  },
];

function likelyOf({ kind, p50On }: Coming): string {
  if (kind === 'limit-met') return said.met;
  if (kind !== 'outlook') return said.notKnown;
  return p50On === null ? said.beyond : day(p50On);
}

function rangeOf({ kind, p10On, p90On }: Coming): string {
  if (kind !== 'outlook') return '';
  return said.rangeOf(p10On === null ? said.beyond : day(p10On), p90On === null ? said.beyond : day(p90On));
}

/** What comes first over all skids, how sure that is, and how right such forecasts have been. */
export default function OutlooksPage() {
  const filter = useFilter();
  const paging = usePaging(filter.key);
  const find = filter.find === '' ? {} : { find: filter.find };
  const coming = query.useQuery(
    'get',
    '/api/outlooks',
    { params: { query: { limit: paging.limit, ...find, ...(paging.cursor === undefined ? {} : { cursor: paging.cursor }) } } },
    { placeholderData: (before) => before },
  );
  return (
    <>
      <PageHead title={said.title} />
      <section className="block">
        <div className="tools no-print">
          <FindBox value={filter.find} onFind={filter.setFind} />
        </div>
        <Loaded of={coming} what={said.what}>
          {(list) => (
            <>
              <p role="status" className="count">
                {said.count(number(list.total))}
              </p>
              {list.items.length > 0 ? (
                <Sheet
                  caption={said.title}
                  columns={COLUMNS}
                  rows={list.items}
                  keyOf={({ skidId, subject, limitKind }) => `${skidId} ${subject} ${limitKind}`}
                />
              ) : filter.find === '' ? (
                <Empty title={said.empty}>{said.emptyWhy}</Empty>
              ) : (
                <Empty title={said.noMatch}>{words.clearFind}</Empty>
              )}
              <Pager paging={paging} list={list} what={said.what} />
            </>
          )}
        </Loaded>
      </section>
      <RecordSection />
    </>
  );
}
