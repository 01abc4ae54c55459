import type { MonthlyUse, Pmf } from '../types.js';
import { type CatalogueFit, groupOf } from './fit-catalogue.js';
import { type ItemState, stateOf } from './item-state.js';
import { pooled } from './pool.js';
import { type Recalibration, recalibrated } from './recalibration.js';

/** The need of the next months that no plan and no outlook tells of, by the item's own past and what the catalogue has in common. */
export const unplannedNeed = (use: MonthlyUse, months: number, fit: CatalogueFit): Pmf => unplannedOf(stateOf(use), months, fit);

/** The same from a state that is there already. No months: nothing. */
export function unplannedOf(state: ItemState, months: number, fit: CatalogueFit): Pmf {
  if (months <= 0) return Float64Array.of(1);
  const pmf = pooled(state, months, fit);
  const table = nearest(fit.recalibrations, months);
  if (table === null) return pmf;
  const reached = table.reached[groupOf(state, table.rates, table.size)];
  if (reached === undefined) return pmf;
  let sum = 0;
  let before = 0;
  return pmf.map((share, k) => {
    sum += share;
    const upTo = k === pmf.length - 1 ? 1 : Math.max(before, recalibrated(reached, Math.min(1, sum)));
    const moved = upTo - before;
    before = upTo;
    return moved;
  });
}

function nearest(tables: readonly Recalibration[], months: number): Recalibration | null {
  return tables.reduce<Recalibration | null>(
    (best, table) => (best === null || Math.abs(table.months - months) < Math.abs(best.months - months) ? table : best),
    null,
  );
}
