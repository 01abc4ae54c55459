import { Link } from 'wouter';
import { query, type Schemas } from '../api/client.js';
import { day, number } from '../format.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { ShowMore } from '../ui/show-more.js';
import { Empty, Loaded } from '../ui/states.js';
import { upkeepWords as said } from '../words/upkeep.js';

type Task = Schemas['TaskOfWeekView'];

const COLUMNS: readonly Column<Task>[] = [
  { name: said.task, cell: ({ task, times }) => (times === 1 ? task : said.times(task, times)) },
  { name: said.skid, cell: ({ skidId, skidName }) => <Link href={`/skids/${skidId}`}>{skidName}</Link> },
  { name: said.site, cell: ({ siteName, clientName }) => `${siteName}, ${clientName}` },
  { name: said.kind, cell: ({ kind }) => kind },
  { name: said.hours, numeric: true, cell: ({ hours }) => number(hours, 1) },
];

/** What the hours of one week are made of: which tasks at which skids. */
export function WeekOfLoad({ week, scope }: { week: string; scope: { readonly clientId?: string; readonly skidId?: string } }) {
  const tasks = query.useQuery('get', '/api/upkeep/load/week', { params: { query: { week, ...scope } } }, { placeholderData: (before) => before });
  return (
    <section className="block">
      <h2>{said.weekOf(day(week))}</h2>
      <Loaded of={tasks} what={said.whatLoad}>
        {(rows) =>
          rows.length === 0 ? (
            <Empty title={said.noTasks}>{said.noTasksWhy}</Empty>
          ) : (
            <>
              <p role="status" className="count">
                {said.weekTotal(
                  number(rows.reduce((sum, { times }) => sum + times, 0)),
                  number(
                    rows.reduce((sum, { hours }) => sum + hours, 0),
                    1,
                  ),
                  number(new Set(rows.map(({ skidId }) => skidId)).size),
                )}
              </p>
              <ShowMore rows={rows}>
                {(shown) => (
                  <Sheet caption={said.weekOf(day(week))} columns={COLUMNS} rows={shown} keyOf={({ skidId, kind, task }) => `${skidId} ${kind} ${task}`} />
                )}
              </ShowMore>
            </>
          )
        }
      </Loaded>
    </section>
  );
}
