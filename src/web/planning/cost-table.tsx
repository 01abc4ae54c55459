import type { Schemas } from '../api/client.js';
import { minutes } from '../format.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { planWords } from '../words/plan.js';

type Cost = Schemas['PlanCostView'];

const COLUMNS: readonly Column<Cost>[] = [
  { name: planWords.costKind, cell: ({ kind }) => planWords.costKinds[kind] },
  { name: planWords.costCount, numeric: true, cell: ({ count }) => count },
  { name: planWords.costCounts, numeric: true, cell: (cost) => minutes(Math.round(cost.minutes)) },
];

/** What a plan costs, by kind: what was weighed against each other when it was searched. */
export function CostTable({ costs }: { costs: readonly Cost[] }) {
  const shown = costs.filter((cost) => cost.count > 0 || cost.minutes > 0);
  const total = shown.filter(({ kind }) => kind !== 'left out').reduce((sum, cost) => sum + cost.minutes, 0);
  return (
    <section className="block">
      <h2>{planWords.costs}</h2>
      <p className="aside">{planWords.costsNote(minutes(Math.round(total)))}</p>
      <Sheet caption={planWords.costs} columns={COLUMNS} rows={shown} keyOf={({ kind }) => kind} />
    </section>
  );
}
