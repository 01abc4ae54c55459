import { useId } from 'react';
import { Link } from 'wouter';
import { HISTORY_KINDS } from '../../shared/history-kinds.js';
import { query, type Schemas } from '../api/client.js';
import { problemOf } from '../api/problem.js';
import { day, moment, number } from '../format.js';
import { useMay } from '../session/session.js';
import { FindBox } from '../ui/find-box.js';
import { PageHead } from '../ui/page-head.js';
import { Pager, usePaging } from '../ui/paging.js';
import { type Period, PeriodFields } from '../ui/period-fields.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty, Failed, Loaded, Loading } from '../ui/states.js';
import { historyWords as said } from '../words/history.js';
import { requestWords } from '../words/requests.js';
import { words } from '../words.js';
import { useHistoryFilter } from './use-history-filter.js';

type Entry = Schemas['HistoryEntryView'];
type Filter = ReturnType<typeof useHistoryFilter>;

/** All that happened at a skid, by kind and period: the same for its owner and for staff. */
export default function HistoryPage({ skidId }: { skidId: string }) {
  const skid = query.useQuery('get', '/api/skids/{skidId}/overview', { params: { path: { skidId } } });
  if (skid.isError) {
    return (
      <>
        <PageHead title={problemOf(skid.error).status === 404 ? words.skid.unknown : said.title} />
        <Failed what={said.what} error={skid.error} again={() => void skid.refetch()} />
      </>
    );
  }
  if (skid.data === undefined) return <Loading what={said.what} />;
  const { name, siteName, clientName, timeZone } = skid.data;
  return (
    <>
      <PageHead
        over={
          <>
            <Link href={`/skids/${skidId}`}>{name}</Link>, {siteName}, {clientName}
          </>
        }
        title={said.of(name)}
      />
      <Entries skidId={skidId} timeZone={timeZone} />
    </>
  );
}

function Entries({ skidId, timeZone }: { skidId: string; timeZone: string }) {
  const may = useMay();
  const filter = useHistoryFilter();
  const paging = usePaging(filter.key);
  const history = query.useQuery(
    'get',
    '/api/skids/{skidId}/history',
    { params: { path: { skidId }, query: { limit: paging.limit, ...filter.query, ...(paging.cursor === undefined ? {} : { cursor: paging.cursor }) } } },
    { placeholderData: (before) => before },
  );
  const { from, to } = filter.period;
  return (
    <section className="block">
      <Tools filter={filter} />
      <Loaded of={history} what={said.what}>
        {(list) => (
          <>
            <p role="status" className="count">
              {said.count(number(list.total), filter.kind === undefined ? said.everything : said.kinds[filter.kind], inWords(filter.period))}
              {list.total > paging.limit && ` ${said.printNote(number(paging.page), number(Math.ceil(list.total / paging.limit)))}`}
            </p>
            {list.items.length > 0 ? (
              <Sheet caption={said.title} columns={columnsOf(timeZone, may.seeWork)} rows={list.items} keyOf={({ id }) => id} />
            ) : filter.key === '' ? (
              <Empty title={said.empty}>{said.emptyWhy}</Empty>
            ) : (
              <Empty title={said.noMatch}>{said.noMatchWhy}</Empty>
            )}
            <Pager paging={paging} list={list} what={said.what} />
          </>
        )}
      </Loaded>
      {from !== '' && to !== '' && from <= to && (
        <p className="no-print">
          <a className="target" href={`/api/skids/${skidId}/report.pdf?from=${from}&to=${to}`}>
            {said.report}
          </a>
        </p>
      )}
    </section>
  );
}

function Tools({ filter }: { filter: Filter }) {
  const id = useId();
  return (
    <div className="tools period-tools no-print">
      <div className="field">
        <label htmlFor={id}>{said.kind}</label>
        <select id={id} value={filter.kind ?? ''} onChange={({ target }) => filter.set({ kind: target.value })}>
          <option value="">{said.everything}</option>
          {HISTORY_KINDS.map((kind) => (
            <option key={kind} value={kind}>
              {said.kinds[kind]}
            </option>
          ))}
        </select>
      </div>
      <PeriodFields period={filter.period} onChange={({ from, to }) => filter.set({ from, to })} />
      <div className="field">
        <FindBox value={filter.find} onFind={filter.setFind} />
      </div>
      <button type="button" onClick={() => window.print()}>
        {said.print}
      </button>
    </div>
  );
}

function inWords({ from, to }: Period): string {
  if (from !== '' && to !== '') return said.between(day(from), day(to));
  if (from !== '') return said.since(day(from));
  return to === '' ? '' : said.until(day(to));
}

const columnsOf = (timeZone: string, isStaff: boolean): readonly Column<Entry>[] => [
  { name: said.at, short: true, cell: ({ at }) => moment(at, timeZone) },
  { name: said.event, cell: ({ event }) => said.events[event] ?? event },
  { name: said.position, cell: ({ positionName }) => positionName ?? words.none },
  { name: said.done, wide: true, cell: (entry) => <Happened entry={entry} isStaff={isStaff} /> },
  { name: said.by, cell: ({ by }) => (by === '' ? words.none : by) },
];

function Happened({ entry: { what, note, jobId, state, severity }, isStaff }: { entry: Entry; isStaff: boolean }) {
  const more = [severity === null ? '' : requestWords.severities[severity], state === null ? '' : requestWords.states[state], note].filter(Boolean);
  return (
    <>
      {jobId === null ? what : <Link href={`/${isStaff ? 'jobs' : 'requests'}/${jobId}`}>{what}</Link>}
      {more.length > 0 && <small>{more.join('. ')}</small>}
    </>
  );
}
