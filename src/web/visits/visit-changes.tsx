import type { Schemas } from '../api/client.js';
import { moment } from '../format.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { words } from '../words.js';
import { weekday } from './weekday.js';

type Change = Schemas['VisitChangeView'];

/** Days that stand in a change are read as days. */
const readable = (text: string) => text.replace(/\d{4}-\d\d-\d\d/g, weekday);

function fromTo({ what, from, to }: Change): string {
  if (what === 'jobs') return to === '' ? words.visits.takenOut(from) : words.visits.added(to);
  return words.visits.fromTo(readable(from), readable(to));
}

/** Everything that happened to a visit, the latest first. */
export function VisitChanges({ changes, timeZone }: { changes: readonly Change[]; timeZone: string }) {
  const columns: readonly Column<Change & { key: number }>[] = [
    { name: words.visits.at, short: true, cell: (change) => moment(change.at, timeZone) },
    { name: words.visits.by, cell: (change) => change.by },
    {
      name: words.visits.change,
      wide: true,
      cell: (change) => (
        <>
          {words.visits.changeOf[change.what] ?? change.what}
          {fromTo(change) !== '' && `: ${fromTo(change)}`}
          {change.note !== '' && <small>{readable(change.note)}</small>}
        </>
      ),
    },
  ];
  const rows = changes.map((change, key) => ({ ...change, key })).toReversed();
  return (
    <section className="block">
      <h2>{words.visits.changes}</h2>
      <Sheet caption={words.visits.changes} columns={columns} rows={rows} keyOf={({ key }) => String(key)} />
    </section>
  );
}
