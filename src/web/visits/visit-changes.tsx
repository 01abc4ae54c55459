import type { Schemas } from '../api/client.js';
import { moment } from '../format.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { visitWords } from '../words/visits.js';
import { weekday } from './weekday.js';

type Change = Schemas['VisitChangeView'];

/** Days that stand in a change are read as days. */
const readable = (text: string) => text.replace(/\d{4}-\d\d-\d\d/g, weekday);

function fromTo({ what, from, to }: Change): string {
  if (what === 'jobs') return to === '' ? visitWords.takenOut(from) : visitWords.added(to);
  return visitWords.fromTo(readable(from), readable(to));
}

/** Everything that happened to a visit, the latest first. */
export function VisitChanges({ changes, timeZone }: { changes: readonly Change[]; timeZone: string }) {
  const columns: readonly Column<Change & { key: number }>[] = [
    { name: visitWords.at, short: true, cell: (change) => moment(change.at, timeZone) },
    { name: visitWords.by, cell: (change) => change.by },
    {
      name: visitWords.change,
      wide: true,
      cell: (change) => (
        <>
          {visitWords.changeOf[change.what] ?? change.what}
          {fromTo(change) !== '' && `: ${fromTo(change)}`}
          {change.note !== '' && <small>{readable(change.note)}</small>}
        </>
      ),
    },
  ];
  if (changes.length === 0) return null;
  const rows = changes.map((change, key) => ({ ...change, key })).toReversed();
  return (
    <section className="block">
      <h2>{visitWords.changes}</h2>
      <Sheet caption={visitWords.changes} columns={columns} rows={rows} keyOf={({ key }) => String(key)} />
    </section>
  );
}
