import { query, type Schemas } from '../api/client.js';
import { moment, number } from '../format.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { ShowMore } from '../ui/show-more.js';
import { Empty, Loaded } from '../ui/states.js';
import { words } from '../words.js';

type Machine = Schemas['MachineView'];

/** Life and daily use of every machine, by each of its counters. */
export function MachineSection({ skidId, timeZone }: { skidId: string; timeZone: string }) {
  const machines = query.useQuery('get', '/api/skids/{skidId}/machines', { params: { path: { skidId } } });
  const columns: readonly Column<Machine>[] = [
    {
      name: words.machines.machine,
      cell: (machine) => (
        <>
          {machine.positionName}
          <small>{machine.positionKind}</small>
        </>
      ),
    },
    { name: words.machines.counter, cell: (machine) => machine.counter },
    { name: words.machines.life, numeric: true, cell: (machine) => number(machine.life) },
    { name: words.machines.dailyUse, numeric: true, cell: (machine) => number(machine.dailyUse, 1) },
    { name: words.machines.asOf, numeric: true, cell: (machine) => moment(machine.asOf, timeZone) },
    {
      name: words.machines.source,
      wide: true,
      cell: (machine) => (
        <>
          {machine.source}
          {machine.rejected.length > 0 && (
            <details className="more">
              <summary>
                {words.machines.rejected(machine.rejected.length)} <span className="unseen">{machine.positionName}</span>
              </summary>
              <ul>
                {machine.rejected.map((line) => (
                  <li key={line}>{line}</li>
                ))}
              </ul>
            </details>
          )}
        </>
      ),
    },
  ];
  return (
    <section className="block">
      <h2>{words.machines.title}</h2>
      <Loaded of={machines} what={words.machines.what}>
        {(list) =>
          list.length === 0 ? (
            <Empty title={words.machines.empty}>{words.machines.emptyWhy}</Empty>
          ) : (
            <ShowMore rows={list}>
              {(rows) => <Sheet caption={words.machines.title} columns={columns} rows={rows} keyOf={(machine) => `${machine.positionId} ${machine.counter}`} />}
            </ShowMore>
          )
        }
      </Loaded>
    </section>
  );
}
