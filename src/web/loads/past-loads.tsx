import { useState } from 'react';
import { query, type Schemas } from '../api/client.js';
import { moment, number } from '../format.js';
import { Pager, usePaging } from '../ui/paging.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty, Loaded } from '../ui/states.js';
import { loadReportWords } from '../words/load-report.js';
import { words } from '../words.js';
import { Problems } from './load-report.js';

type Load = Schemas['LoadView'];

/** What came in, from whom, and what became of it. */
export function PastLoads({ skidId, timeZone }: { skidId: string; timeZone: string }) {
  const paging = usePaging(skidId);
  const loads = query.useQuery(
    'get',
    '/api/skids/{skidId}/loads',
    { params: { path: { skidId }, query: { limit: paging.limit, ...(paging.cursor === undefined ? {} : { cursor: paging.cursor }) } } },
    { placeholderData: (before) => before },
  );
  const columns: readonly Column<Load>[] = [
    { name: words.loads.at, short: true, cell: (load) => moment(load.at, timeZone) },
    { name: words.loads.by, short: true, cell: (load) => load.by },
    { name: words.loads.kind, cell: (load) => words.loads.kindOf(load.kind) },
    { name: words.loads.file, wide: true, cell: (load) => load.name },
    ...(['kept', 'known', 'differing', 'replaced', 'doubtful', 'refused'] as const).map(
      (name): Column<Load> => ({ name: loadReportWords.counts[name], numeric: true, cell: (load) => number(load[name]) }),
    ),
    { name: loadReportWords.problems, wide: true, cell: (load) => <ProblemsOfLoad load={load} /> },
  ];
  return (
    <section className="block">
      <h2>{words.loads.past}</h2>
      <Loaded of={loads} what={words.loads.what}>
        {(list) => (
          <>
            {list.items.length === 0 ? (
              <Empty title={words.loads.empty}>{words.loads.emptyWhy}</Empty>
            ) : (
              <Sheet caption={words.loads.past} columns={columns} rows={list.items} keyOf={(load) => load.id} />
            )}
            <Pager paging={paging} list={list} what={words.loads.what} />
          </>
        )}
      </Loaded>
    </section>
  );
}

function ProblemsOfLoad({ load }: { load: Load }) {
  const [isOpen, setOpen] = useState(false);
  const detail = query.useQuery('get', '/api/loads/{loadId}', { params: { path: { loadId: load.id } } }, { enabled: isOpen });
  if (load.refused + load.doubtful + load.differing === 0) return words.none;
  return (
    <details className="more" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        {words.loads.show} <span className="unseen">{load.name}</span>
      </summary>
      {isOpen && (
        <Loaded of={detail} what={loadReportWords.problems}>
          {({ totals, problems }) => <Problems totals={totals} problems={problems} />}
        </Loaded>
      )}
    </details>
  );
}
