import { limitForecast, type MetWithin } from '../days-to-limit.js';

/** A forecast that came true, and by how much its range had been stretched already. */
export interface CameTrue {
  /** Forecasts of one life are right or wrong together: a life counts once */
  readonly life: string;
  readonly p10Days: number | null;
  readonly p50Days: number | null;
  readonly p90Days: number | null;
  readonly stretch: number;
  readonly truthDays: number;
}

/** Bands of days ahead, by what a forecast says: errors grow with them. */
export const REACHES = [14, 28, 63, 182, Number.POSITIVE_INFINITY] as const;

export const reachOf = (p50Days: number): number => REACHES.findIndex((most) => p50Days <= most);

const COVERED = 0.8;
const FEWEST_LIVES = 3;
/** That a range holds as it is counts as so many lives. Own choice. */
const HOLDS_COUNTS_AS = 6;
const STRETCH_RANGE = [0.5, 4] as const;
/** Days are whole: less than half of one cannot be told apart from none */
const LEAST_DAYS = 0.5;
const LEAST_RANGE = 0.02;
/** A truth within a side of the range whose end lies beyond the horizon: inside, nobody knows how far */
const SOMEWHERE_INSIDE = 0.5;

/**
 * By how much the ranges of a way of forecasting have to be stretched so that eight in ten of the truths lie in them, learned from forecasts that came true: 1 where they hold, 2 where they are half as wide as they should be.
 *
 * Each truth's distance from the middle, as a share of that side of the range (in logarithms of days, and of the range before it was stretched); their 80 % point with one place more for how few they are, a life counting
 * once; drawn towards 1, which counts as six lives. 1 below three lives. From 0.5 to 4.
 *
 * Source: split conformal prediction (Vovk and others, from memory); the shrinkage is our own.
 *
 * @example stretchOf([]) // => 1
 */
export function stretchOf(past: readonly CameTrue[]): number {
  const distances = past.flatMap((one) => {
    const distance = distanceOf(one);
    return distance === null ? [] : [{ life: one.life, distance }];
  });
  const perLife = new Map<string, number>();
  for (const { life } of distances) perLife.set(life, (perLife.get(life) ?? 0) + 1);
  const lives = perLife.size;
  if (lives < FEWEST_LIVES) return 1;
  const wanted = Math.min(1, COVERED * (1 + 1 / lives)) * lives;
  let [sum, point] = [0, 0];
  for (const { life, distance } of distances.sort((a, b) => a.distance - b.distance)) {
    point = distance;
    sum += 1 / (perLife.get(life) ?? 1);
    if (sum >= wanted - 1e-9) break;
  }
  const believed = lives / (lives + HOLDS_COUNTS_AS);
  const stretch = Math.exp(believed * Math.log(Math.max(1e-3, point)));
  return Math.min(STRETCH_RANGE[1], Math.max(STRETCH_RANGE[0], stretch));
}

function distanceOf({ p10Days, p50Days, p90Days, stretch, truthDays }: CameTrue): number | null {
  if (p50Days === null) return null;
  const [middle, truth] = [Math.max(LEAST_DAYS, p50Days), Math.max(LEAST_DAYS, truthDays)];
  const end = truth < middle ? p10Days : p90Days;
  if (end === null) return SOMEWHERE_INSIDE * stretch;
  const range = Math.abs(Math.log(Math.max(LEAST_DAYS, end) / middle));
  return (Math.abs(Math.log(truth / middle)) / Math.max(LEAST_RANGE, range)) * stretch;
}

/**
 * A forecast with its range stretched about its middle, in logarithms of days. The middle stays where it is.
 *
 * @example stretched((days) => days / 200, 100, 1)(50) // => 0.25
 * @example stretched((days) => days / 200, 100, 2)(25) // => 0.25
 */
export function stretched(met: MetWithin, p50Days: number, stretch: number): MetWithin {
  if (stretch === 1 || !(p50Days > 0)) return met;
  return (days) => (days > 0 ? met(p50Days * (days / p50Days) ** (1 / stretch)) : met(days));
}

/** By how much the ranges of a model, with its version, are stretched for a middle so many days ahead. */
export type StretchFor = (model: string, p50Days: number) => number;

/**
 * A forecast with its range as the record of its model asks for, by how far ahead its middle lies. As it is where the middle lies beyond the horizon, or nothing was learned.
 *
 * @example calibrated((days) => Math.min(1, days / 80), 'a model 1', () => 2).stretch // => 2
 * @example calibrated(() => 0, 'a model 1', () => 2).stretch // => 1
 */
export function calibrated(met: MetWithin, model: string, stretchFor: StretchFor = () => 1): { readonly met: MetWithin; readonly stretch: number } {
  const { p50Days } = limitForecast(met);
  const stretch = p50Days === null ? 1 : stretchFor(model, p50Days);
  return { met: p50Days === null ? met : stretched(met, p50Days, stretch), stretch };
}
