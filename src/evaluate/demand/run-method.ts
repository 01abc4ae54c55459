import { quantileOf } from '../../store/core/demand/pmf/pmf.js';
import type { Pmf } from '../../store/core/demand/types.js';
import type { KeptByNominal } from './frontier.js';
import { keepStock, MONTHS_TO_USE } from './keep-stock.js';
import type { Method } from './methods.js';
import { crps, pinballOf } from './scores.js';

/** Months that are kept back to look at, and that the scored need spans. */
const MONTHS_TESTED = 12;
const MONTHS_SCORED = 3;
/** Before the end: the one origin whose score the literature gives. */
const ONE_ORIGIN = 6;

const NOMINALS: readonly number[] = [
  0.5, 0.55, 0.6, 0.65, 0.7, 0.74, 0.78, 0.81, 0.84, 0.86, 0.88, 0.9, 0.915, 0.93, 0.94, 0.95, 0.96, 0.97, 0.975, 0.98, 0.985, 0.99, 0.995, 0.998, 0.9993,
  0.9998,
];
export const PINBALLS: readonly number[] = [0.9, 0.95, 0.98];

/** Of each item, in their order. Scores are means over the rolling origins. */
export interface Outcome {
  readonly kept: KeptByNominal;
  readonly crps: Float64Array;
  readonly crpsAtOneOrigin: Float64Array;
  readonly pinballs: readonly Float64Array[];
}

export function runMethod(method: Method, histories: readonly (readonly number[])[]): Outcome {
  const months = histories[0]?.length ?? 0;
  const first = months - MONTHS_TESTED;
  const items = histories.length;
  const crpsSum = new Float64Array(items);
  const one = new Float64Array(items);
  const pinballs = PINBALLS.map(() => new Float64Array(items));
  const levels = NOMINALS.map(() => histories.map(() => [] as number[]));
  const origins = MONTHS_TESTED - MONTHS_SCORED + 1;
  for (let back = MONTHS_TESTED; back >= MONTHS_SCORED; back--) {
    const forecast = method.forecaster(
      histories.map((history) => history.slice(0, months - back)),
      [MONTHS_SCORED, MONTHS_TO_USE],
    );
    for (const [item, history] of histories.entries()) {
      const y = history.slice(months - back, months - back + MONTHS_SCORED).reduce((sum, need) => sum + need, 0);
      const pmf = forecast(item, MONTHS_SCORED);
      const score = crps(pmf, y);
      crpsSum[item] = (crpsSum[item] ?? 0) + score / origins;
      if (back === ONE_ORIGIN) one[item] = score;
      for (const [at, tau] of PINBALLS.entries()) {
        const losses = pinballs[at];
        if (losses !== undefined) losses[item] = (losses[item] ?? 0) + pinballOf(pmf, y, tau, method.floor) / origins;
      }
      if (back >= MONTHS_TO_USE) addLevels(levels, item, forecast(item, MONTHS_TO_USE), method.floor);
    }
  }
  const kept = NOMINALS.map((nominal, at) => ({
    nominal,
    kept: histories.map((history, item) => keepStock(history.slice(first), levels[at]?.[item] ?? [])),
  }));
  return { kept, crps: crpsSum, crpsAtOneOrigin: one, pinballs };
}

function addLevels(levels: readonly number[][][], item: number, pmf: Pmf, floor: number): void {
  for (const [at, nominal] of NOMINALS.entries()) levels[at]?.[item]?.push(Math.max(floor, quantileOf(pmf, nominal)));
}
