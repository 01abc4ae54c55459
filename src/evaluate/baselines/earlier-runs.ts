import { bisectLeft, deviation, median } from 'd3-array';
import type { RigRun } from '../clogging/rig-run.js';

/** A run with its value smoothed by what came before and made to climb, so that a level is met once. */
export interface ClimbingRun extends RigRun {
  readonly climbed: readonly number[];
}

const SMOOTHED_OVER = 9;

export function climbing(run: RigRun): ClimbingRun {
  let highest = Number.NEGATIVE_INFINITY;
  const climbed = run.value.map((_, at) => {
    highest = Math.max(highest, median(run.value.slice(Math.max(0, at - SMOOTHED_OVER + 1), at + 1)) ?? 0);
    return highest;
  });
  return { ...run, climbed };
}

/** Seconds that a run still had when it first was at a level. */
function leftAt(run: ClimbingRun, level: number): number {
  let [low, high] = [0, run.climbed.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((run.climbed[middle] ?? 0) < level) low = middle + 1;
    else high = middle;
  }
  return run.lifeS - (run.timeS[Math.min(low, run.timeS.length - 1)] ?? 0);
}

export interface Simple {
  readonly life: number;
  readonly 'look-up': number;
  readonly blend: number;
}

/** What runs of the same condition say of the seconds left: their middle life, what they had left at this level, and both weighted by how well they agree. */
export function fromAlike(alike: readonly ClimbingRun[], level: number, now: number): Simple {
  const lives = alike.map(({ lifeS }) => lifeS);
  const middle = median(lives) ?? 0;
  const left = alike.map((run) => leftAt(run, level));
  const life = Math.max(0, middle - now);
  const lookUp = median(left) ?? 0;
  const [wLife, wLookUp] = [lives, left].map((values) => 1 / Math.max(deviation(values) ?? 0, 0.01 * middle) ** 2) as [number, number];
  return { life, 'look-up': lookUp, blend: (wLife * life + wLookUp * lookUp) / (wLife + wLookUp) };
}

/** The same from runs at other loads, each brought to this one by the load law: life times load is constant. */
export function fromOtherLoads(others: readonly ClimbingRun[], strength: number, level: number, now: number): { 'load law': number; 'scaled look-up': number } {
  const life = median(others, (run) => (run.lifeS * run.strength) / strength) ?? 0;
  return { 'load law': Math.max(0, life - now), 'scaled look-up': median(others, (run) => (leftAt(run, level) * run.strength) / strength) ?? 0 };
}

const CURVE_POINTS = 99;

/** Median course over normalised life, stretched in time until it fits what was seen. */
export function fleetCurve(others: readonly RigRun[]): (run: Pick<RigRun, 'timeS' | 'value'>, now: number) => number {
  const curve = Array.from(
    { length: CURVE_POINTS },
    (_, i) => median(others, (run) => valueAt(run.timeS, run.value, (0.02 + (0.98 * i) / (CURVE_POINTS - 1)) * run.lifeS)) ?? 0,
  );
  const at = (u: number) => {
    const place = Math.min(CURVE_POINTS - 1, Math.max(0, ((u - 0.02) / 0.98) * (CURVE_POINTS - 1)));
    const cell = Math.min(CURVE_POINTS - 2, Math.floor(place));
    return (curve[cell] ?? 0) + (place - cell) * ((curve[cell + 1] ?? 0) - (curve[cell] ?? 0));
  };
  return ({ timeS, value }, now) => {
    let best = { error: Number.POSITIVE_INFINITY, left: 0 };
    for (let step = 0; step < 400; step++) {
      const life = now * Math.exp(Math.log(1.005) + (step / 399) * Math.log(12 / 1.005));
      let error = 0;
      for (const [i, time] of timeS.entries()) error += (at(time / life) - (value[i] ?? 0)) ** 2;
      if (error < best.error) best = { error, left: life - now };
    }
    return best.left;
  };
}

/** On the straight line between samples, and flat outside them. */
export function valueAt(times: readonly number[], values: readonly number[], time: number): number {
  const after = bisectLeft(times, time);
  if (after === times.length) return values.at(-1) ?? 0;
  if (after === 0) return values[0] ?? 0;
  const [t0 = 0, t1 = 0] = [times[after - 1], times[after]];
  return (values[after - 1] ?? 0) + ((time - t0) / (t1 - t0)) * ((values[after] ?? 0) - (values[after - 1] ?? 0));
}
