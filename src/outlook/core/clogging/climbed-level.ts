import { type Course, countUntil } from './course.js';

/** Highest level so far: what was met first cannot be met again. Mean over the last part of the clock, so that one wrong value does not count. */
export interface Climb {
  readonly clock: readonly number[];
  readonly level: Float64Array;
}

const MEAN_OVER = 0.05;
const LEAST_SAMPLES = 3;

export function climbOf({ clock, level }: Course): Climb {
  const climbed = new Float64Array(clock.length);
  const sums = new Float64Array(clock.length + 1);
  let highest = Number.NEGATIVE_INFINITY;
  let from = 0;
  for (let i = 0; i < clock.length; i++) {
    sums[i + 1] = (sums[i] as number) + (level[i] as number);
    while ((clock[from] as number) < (1 - MEAN_OVER) * (clock[i] as number)) from++;
    const begin = Math.max(0, Math.min(from, i + 1 - LEAST_SAMPLES));
    highest = Math.max(highest, ((sums[i + 1] as number) - (sums[begin] as number)) / (i + 1 - begin));
    climbed[i] = highest;
  }
  return { clock, level: climbed };
}

/** Level at a moment; `null` before the first sample. */
export function climbedAt({ clock, level }: Climb, now: number): number | null {
  const count = countUntil(clock, now);
  return count === 0 ? null : (level[count - 1] as number);
}

/** Clock at which a level was first met; the end of the record where it never was. */
export function firstAt({ clock, level }: Climb, wanted: number, count = clock.length): number {
  let [low, high] = [0, count];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((level[middle] as number) < wanted) low = middle + 1;
    else high = middle;
  }
  return clock[Math.min(low, count - 1)] ?? 0;
}
