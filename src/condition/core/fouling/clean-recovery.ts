import { median } from 'd3-array';
import { type Day, dayPlus, daysBetween } from '../../../shared/day.js';
import type { ChemicalClean, FoulingDay } from './resistance-parts.js';

/** What a chemical clean gave back. Permeabilities at the reference temperature, L/m2 h bar; `null` where too little was measured around it. */
export interface CleanRecovery extends ChemicalClean {
  readonly beforeLmhBar: number | null;
  readonly afterLmhBar: number | null;
  /** After it, over that of the new membrane */
  readonly ofNew: number | null;
  /** After it, over what the clean of the same kind before it had given back */
  readonly ofLast: number | null;
}

const AROUND_DAYS = 3;
/** A value from longer before or after says little of the clean. */
const WITHIN_DAYS = 7;

/**
 * Permeability before and after each clean: medians of up to three days with a value within a week on either side, up to the next clean. The day of the clean itself mixes both and is left out.
 *
 * Source: windows by common practice.
 *
 * @example cleanRecoveries([], [{ kind: 'CIP', day: '2026-01-05' }], 250)[0].ofNew // => null
 */
export function cleanRecoveries(days: readonly FoulingDay[], cleans: readonly ChemicalClean[], newLmhBar: number | null): CleanRecovery[] {
  const inOrder = [...cleans].sort((one, two) => (one.day < two.day ? -1 : 1));
  const last = new Map<ChemicalClean['kind'], number>();
  return inOrder.map((clean, at) => {
    const previous = inOrder[at - 1];
    const next = inOrder[at + 1]?.day ?? '9999-12-31';
    const [from, to] = [dayPlus(clean.day, -WITHIN_DAYS), dayPlus(clean.day, WITHIN_DAYS)];
    const near = (day: Day) => day >= from && day <= to;
    const before = valuesOf(days.filter(({ day }) => day < clean.day && isAfter(day, previous) && near(day))).slice(-AROUND_DAYS);
    const after = valuesOf(days.filter(({ day }) => day > clean.day && day <= next && near(day))).slice(0, AROUND_DAYS);
    const afterLmhBar = median(after) ?? null;
    const earlier = last.get(clean.kind) ?? null;
    if (afterLmhBar !== null) last.set(clean.kind, afterLmhBar);
    return {
      ...clean,
      beforeLmhBar: median(before) ?? null,
      afterLmhBar,
      ofNew: afterLmhBar === null || newLmhBar === null ? null : afterLmhBar / newLmhBar,
      ofLast: afterLmhBar === null || earlier === null ? null : afterLmhBar / earlier,
    };
  });
}

/** The day of a maintenance clean still counts: where one is made every day there is no other. That of a recovery clean changes too much. */
const isAfter = (day: Day, clean: ChemicalClean | undefined): boolean => clean === undefined || day > clean.day || (day === clean.day && clean.kind === 'CEB');

const valuesOf = (days: readonly FoulingDay[]): number[] => days.flatMap(({ startLmhBar, meanLmhBar }) => startLmhBar ?? meanLmhBar ?? []);

/**
 * Whether recovery cleans give back less and less, in a sentence; null: fewer than three of them are known. Maintenance cleans are not judged so: what they leave depends on how long ago the
 * last recovery clean was.
 */
export function declineInWords(recoveries: readonly CleanRecovery[]): string | null {
  const known = recoveries.flatMap((one) => (one.kind === 'CIP' && one.ofNew !== null ? [{ day: one.day, share: one.ofNew }] : []));
  const [first, last] = [known[0], known.at(-1)];
  if (first === undefined || last === undefined || known.length < 3) return null;
  const slopes = known.flatMap((one, at) => known.slice(at + 1).map((two) => (two.share - one.share) / Math.max(1, daysBetween(one.day, two.day))));
  const perYear = 100 * 365 * (median(slopes) ?? 0);
  const from = `${Math.round(100 * first.share)} % of new after the first, ${Math.round(100 * last.share)} % after the last`;
  if (perYear > -1) return `${known.length} recovery cleans gave back about the same: ${from}`;
  return `${known.length} recovery cleans gave back less and less: ${from}, ${Math.abs(perYear).toFixed(1)} points a year`;
}
