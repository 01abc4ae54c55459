import type { Draws } from '../installed-base/draws.js';

/** A run from one renewal to the next, in days of the record; its limit is met when its load is spent, whether it is still in or not. */
export interface DrawnRun {
  readonly from: number;
  /** Load that the first run had behind it when the record began */
  readonly before: number;
  readonly renewed: number | null;
  /** Day and share of a day; null: after the record */
  readonly met: number | null;
  readonly lifeLoad: number;
}

export interface Habit {
  /** Load that a usual run lasts, and the scatter of ln(load) from run to run */
  readonly usualLoad: number;
  readonly scatter: number;
  /** Share of its life at which a run is renewed */
  readonly renewedAt: () => number;
}

/** Runs one after the other over a record whose load a day is known. */
export function drawRuns(loads: readonly number[], { usualLoad, scatter, renewedAt }: Habit, draws: Draws): DrawnRun[] {
  const sums = [0];
  for (const load of loads) sums.push((sums.at(-1) ?? 0) + load);
  const dayAt = (sum: number): number | null => {
    const after = sums.findIndex((one) => one >= sum);
    const [low = 0, high = 0] = [sums[after - 1], sums[after]];
    return after < 1 ? null : after - 1 + (sum - low) / Math.max(1e-9, high - low);
  };
  const runs: DrawnRun[] = [];
  let [from, before] = [0, 0.7 * draws.next() * usualLoad];
  for (;;) {
    const lifeLoad = Math.max(1.2 * before, draws.logNormal(usualLoad, scatter));
    const start = (sums[from] ?? 0) - before;
    const at = dayAt(start + Math.max(1.1 * before, renewedAt() * lifeLoad));
    // People come on the day after, at the earliest.
    const renewed = at === null ? loads.length : Math.max(from + 2, Math.ceil(at));
    const isOver = renewed >= loads.length;
    runs.push({ from, before, renewed: isOver ? null : renewed, met: dayAt(start + lifeLoad), lifeLoad });
    if (isOver) return runs;
    [from, before] = [renewed, 0];
  }
}

/** The number of the run of each day, and the share of its life that is gone at the end of it. */
export function spentByDay(runs: readonly DrawnRun[], loads: readonly number[]): { readonly run: number; readonly share: number }[] {
  let [run, load] = [0, runs[0]?.before ?? 0];
  return loads.map((ofDay, day) => {
    if (runs[run + 1]?.from === day) [run, load] = [run + 1, 0];
    load += ofDay;
    return { run, share: load / (runs[run]?.lifeLoad ?? 1) };
  });
}
