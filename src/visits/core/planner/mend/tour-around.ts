import type { BuiltProblem } from '../build-problem.js';
import type { RoutePlan } from '../routing-problem.js';

/** The slots of the tour that a slot is part of, over all nights away. */
export function tourAround({ problem: { nights, slots } }: BuiltProblem, plan: RoutePlan, slot: number): number[] {
  const along = (from: number, side: 'before' | 'after'): number[] => {
    const isAway = side === 'before' ? plan.startNode[from] !== slots.startNode[from] : plan.endNode[from] !== slots.endNode[from];
    const next = nights?.[side][from] ?? -1;
    return isAway && next >= 0 ? [next, ...along(next, side)] : [];
  };
  return [...along(slot, 'before'), slot, ...along(slot, 'after')];
}

/** What is not promised in these slots. */
export const freeIn = ({ problem: { visits } }: BuiltProblem, plan: RoutePlan, slots: readonly number[]): { readonly visit: number; readonly slot: number }[] =>
  slots.flatMap((slot) => (plan.routes[slot] ?? []).filter((visit) => visits.locked[visit] === 0).map((visit) => ({ visit, slot })));
