import type { Schemas } from '../api/client.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { weekday } from '../visits/weekday.js';
import { planWords } from '../words/plan.js';
import { namesOf } from './lines.js';

type Change = Schemas['PlanChangeView'];
type PlaceInPlan = NonNullable<Change['from']>;

const said = planWords.changed;
const placeInWords = ({ day, startAt, people }: PlaceInPlan) => `${weekday(day)}, ${startAt}, ${namesOf(people)}`;

const COLUMNS: readonly Column<Change>[] = [
  { name: planWords.notInWhat, cell: ({ text }) => text },
  { name: said.what, cell: ({ what }) => said.whats[what] },
  { name: said.from, cell: ({ from }) => (from === null ? said.notIn : placeInWords(from)) },
  { name: said.to, cell: ({ to }) => (to === null ? said.notIn : placeInWords(to)) },
  { name: planWords.why, wide: true, cell: ({ why }) => why },
];

/** What became of each piece of work against the plan that this one replaces. */
export function ChangeTable({ plan: { changes, replacesNo } }: { plan: Schemas['PlanView'] }) {
  if (replacesNo === null) return null;
  const changed = changes.filter(({ what }) => what !== 'unchanged');
  return (
    <section className="block">
      <h2>{said.title(replacesNo)}</h2>
      <p className="aside">{said.count(changed.length, changes.length - changed.length)}</p>
      {changed.length > 0 && <Sheet caption={said.title(replacesNo)} columns={COLUMNS} rows={changed} keyOf={({ kind, id }) => `${kind} ${id}`} />}
    </section>
  );
}
