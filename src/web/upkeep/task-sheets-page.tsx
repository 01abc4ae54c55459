import { Link } from 'wouter';
import { query, type Schemas } from '../api/client.js';
import { number } from '../format.js';
import { useMay } from '../session/session.js';
import { FindBox } from '../ui/find-box.js';
import { PageHead } from '../ui/page-head.js';
import { Pager, usePaging } from '../ui/paging.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty, Loaded } from '../ui/states.js';
import { useFilter } from '../ui/use-filter.js';
import { sheetWords } from '../words/task-sheets.js';
import { upkeepWords as said } from '../words/upkeep.js';

const COLUMNS: readonly Column<Schemas['TaskSheetHeadView']>[] = [
  { name: said.task, cell: ({ id, task }) => <Link href={`/task-sheets/${id}`}>{task}</Link> },
  { name: said.kind, cell: ({ kind }) => kind },
  { name: said.minutes, numeric: true, cell: ({ usualMinutes }) => number(usualMinutes) },
  { name: said.crew, numeric: true, cell: ({ crew }) => number(crew) },
  { name: said.waterOff, numeric: true, cell: ({ waterOffMinutes }) => number(waterOffMinutes) },
  { name: said.version, numeric: true, cell: ({ latestNo }) => number(latestNo) },
];

/** What doing each task takes. */
export default function TaskSheetsPage() {
  const may = useMay();
  const filter = useFilter();
  const paging = usePaging(filter.key);
  const find = filter.find === '' ? {} : { find: filter.find };
  const sheets = query.useQuery(
    'get',
    '/api/task-sheets',
    { params: { query: { limit: paging.limit, ...find, ...(paging.cursor === undefined ? {} : { cursor: paging.cursor }) } } },
    { placeholderData: (before) => before },
  );
  return (
    <>
      <PageHead title={said.sheets} />
      <section className="block">
        <div className="tools no-print">
          <FindBox value={filter.find} onFind={filter.setFind} />
          {may.manage && (
            <Link className="target" href="/task-sheets/new">
              {sheetWords.make}
            </Link>
          )}
        </div>
        <Loaded of={sheets} what={said.whatSheets}>
          {(list) => (
            <>
              {list.items.length > 0 ? (
                <Sheet caption={said.sheets} columns={COLUMNS} rows={list.items} keyOf={({ id }) => id} />
              ) : (
                <Empty title={said.noSheets}>{said.noSheetsWhy}</Empty>
              )}
              <Pager paging={paging} list={list} what={said.whatSheets} />
            </>
          )}
        </Loaded>
      </section>
    </>
  );
}
