import type { Draws } from '../installed-base/draws.js';

const STORMS_A_YEAR = 7;
const FADING_DAYS = 2.5;

/** How dirty the water of a region is, day by day, as a multiple of the usual: a slow wander, and storms that fade. */
export function dirtOf(days: number, draws: Draws): number[] {
  const dirt: number[] = [];
  let [wander, storm] = [0, 0];
  for (let day = 0; day < days; day++) {
    wander = 0.97 * wander + 0.07 * draws.normal();
    storm *= Math.exp(-1 / FADING_DAYS);
    if (draws.next() < STORMS_A_YEAR / 365) storm += draws.logNormal(2, 0.6);
    dirt.push(Math.exp(wander) * (1 + storm));
  }
  return dirt;
}
