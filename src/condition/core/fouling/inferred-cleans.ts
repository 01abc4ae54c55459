import { median } from 'd3-array';
import { type Day, dayPlus, daysBetween } from '../../../shared/day.js';
import type { ChemicalClean, FoulingDay } from './resistance-parts.js';

/** A step up in permeability that no clean on record explains. */
export interface InferredClean {
  readonly day: Day;
  readonly fromLmhBar: number;
  readonly toLmhBar: number;
}

const SIDE = 4;
/** A step of less is scatter, temperature or flow. Common practice. */
const LEAST_STEP = 0.06;
const SCATTERS = 4;
const NEAR_DAYS = 2;

/**
 * Steps up in permeability that stay: the median of the four days with values from a day on lies above that of the four before it by at least 6 % and by four times the usual difference between
 * neighbouring days; of days side by side the one with the largest rise counts. Those within two days of a clean on record are explained and left out. What is inferred may as well be a repaired
 * instrument or a new module: it is marked, and somebody who knows says which.
 *
 * Source: own composition of common practice.
 *
 * @example inferredCleans([], []) // => []
 */
export function inferredCleans(days: readonly FoulingDay[], cleans: readonly ChemicalClean[]): InferredClean[] {
  const values = days.flatMap(({ day, startLmhBar, meanLmhBar }) => {
    const value = startLmhBar ?? meanLmhBar;
    return value === null || value <= 0 ? [] : [{ day, value }];
  });
  const differences = values.slice(1).map(({ value }, at) => Math.abs(Math.log(value / (values[at]?.value ?? value))));
  const least = Math.max(LEAST_STEP, SCATTERS * (median(differences) ?? 0));
  const steps = values.flatMap(({ day }, at) => {
    if (at < SIDE || at + SIDE > values.length) return [];
    const [before, after] = [values.slice(at - SIDE, at), values.slice(at, at + SIDE)].map((side) => side.map(({ value }) => value));
    // Medians lie within their sides: most days need none.
    if (before === undefined || after === undefined || Math.log(Math.max(...after) / Math.min(...before)) < least) return [];
    const [from, to] = [median(before) ?? 0, median(after) ?? 0];
    const rise = (values[at]?.value ?? 0) / (values[at - 1]?.value ?? 1);
    return from > 0 && Math.log(to / from) >= least ? [{ day, fromLmhBar: from, toLmhBar: to, rise }] : [];
  });
  return steps
    .filter(
      (step) =>
        !steps.some(
          (other) =>
            other !== step &&
            Math.abs(daysBetween(step.day, other.day)) <= SIDE &&
            (other.rise > step.rise || (other.rise === step.rise && other.day < step.day)),
        ),
    )
    .filter(({ day }) => {
      const [early, late] = [dayPlus(day, -NEAR_DAYS), dayPlus(day, NEAR_DAYS)];
      return !cleans.some((clean) => clean.day >= early && clean.day <= late);
    })
    .map(({ day, fromLmhBar, toLmhBar }) => ({ day, fromLmhBar, toLmhBar }));
}
