import { Link } from 'wouter';
import type { Schemas } from '../api/client.js';
import { minutes, number } from '../format.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { planWords } from '../words/plan.js';
import { rateWords } from '../words/plan-rates.js';

type Cost = Schemas['PlanCostView'];

/** In money where the plan knows what an hour costs. */
export const worth = (cost: Pick<Cost, 'minutes' | 'money'>) => (cost.money === null ? minutes(Math.round(cost.minutes)) : number(cost.money, 0));

const columnsIn = (currency: string | null): readonly Column<Cost>[] => [
  { name: planWords.costKind, cell: ({ kind }) => planWords.costKinds[kind] },
  { name: planWords.costCount, numeric: true, cell: ({ count }) => count },
  { name: currency === null ? planWords.costCounts : planWords.costCountsIn(currency), numeric: true, cell: worth },
];

/** What a plan costs, by kind: what was weighed against each other when it was searched. */
export function CostTable({ costs, currency }: { costs: readonly Cost[]; currency: string | null }) {
  const shown = costs.filter((cost) => cost.count > 0 || cost.minutes > 0);
  const placed = shown.filter(({ kind }) => kind !== 'left out');
  const sum = placed.reduce((total, cost) => total + cost.minutes, 0);
  const money = currency === null ? null : placed.reduce((total, cost) => total + (cost.money ?? 0), 0);
  const total = currency === null ? worth({ minutes: sum, money: null }) : `${currency} ${worth({ minutes: sum, money })}`;
  return (
    <section className="block">
      <h2>{planWords.costs}</h2>
      <p className="aside">{currency === null ? planWords.costsNote(total) : planWords.costsNoteIn(total)}</p>
      {currency === null && (
        <p className="aside">
          {rateWords.none} <Link href="/plan/rates">{rateWords.enter}</Link>
        </p>
      )}
      <Sheet caption={planWords.costs} columns={columnsIn(currency)} rows={shown} keyOf={({ kind }) => kind} />
    </section>
  );
}
