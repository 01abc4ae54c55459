import { lazy, useState } from 'react';
import { query, type Schemas } from '../api/client.js';
import { moment } from '../format.js';
import { useMay } from '../session/session.js';
import { FindBox } from '../ui/find-box.js';
import { Opened } from '../ui/opened.js';
import { Pager, usePaging } from '../ui/paging.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty, Loaded } from '../ui/states.js';
import { words } from '../words.js';

const CleanForm = lazy(async () => ({ default: (await import('./event-forms.js')).CleanForm }));
const WorkForm = lazy(async () => ({ default: (await import('./event-forms.js')).WorkForm }));

type Entry = Schemas['ServiceLogEntryView'];

/** All that was done at the skid, the latest first: one page of it at a time. */
export function ServiceLogSection({ skidId, timeZone }: { skidId: string; timeZone: string }) {
  const may = useMay();
  const [find, setFind] = useState('');
  const paging = usePaging(find);
  const log = query.useQuery(
    'get',
    '/api/skids/{skidId}/service-log',
    {
      params: {
        path: { skidId },
        query: { limit: paging.limit, ...(find === '' ? {} : { find }), ...(paging.cursor === undefined ? {} : { cursor: paging.cursor }) },
      },
    },
    { placeholderData: (before) => before },
  );
  const columns: readonly Column<Entry>[] = [
    { name: words.serviceLog.at, short: true, cell: (entry) => moment(entry.at, timeZone) },
    { name: words.serviceLog.kind, cell: (entry) => words.serviceLog.kindOf(entry.kind) },
    { name: words.parts.position, cell: (entry) => entry.positionName ?? words.none },
    {
      name: words.serviceLog.done,
      wide: true,
      cell: (entry) => (
        <>
          {entry.what}
          {entry.note !== '' && <small>{entry.note}</small>}
        </>
      ),
    },
    { name: words.parts.by, cell: (entry) => entry.by },
  ];
  return (
    <section className="block">
      <div className="block-head">
        <h2>{words.serviceLog.title}</h2>
        <div className="tools no-print">
          <FindBox value={find} onFind={setFind} />
        </div>
      </div>
      <Loaded of={log} what={words.serviceLog.what}>
        {(list) => (
          <>
            {list.items.length > 0 ? (
              <Sheet caption={words.serviceLog.title} columns={columns} rows={list.items} keyOf={(entry) => `${entry.kind} ${entry.id}`} />
            ) : find === '' ? (
              <Empty title={words.serviceLog.empty}>{words.serviceLog.emptyWhy}</Empty>
            ) : (
              <Empty title={words.serviceLog.noMatch}>{words.clearFind}</Empty>
            )}
            <Pager paging={paging} list={list} what={words.serviceLog.what} />
          </>
        )}
      </Loaded>
      {may.loadLogs && (
        <>
          <Opened summary={words.events.clean} what={words.form}>
            <CleanForm skidId={skidId} timeZone={timeZone} />
          </Opened>
          <Opened summary={words.events.work} what={words.form}>
            <WorkForm skidId={skidId} timeZone={timeZone} />
          </Opened>
        </>
      )}
    </section>
  );
}
