import { type CusumPlan, cusum } from '../charts/cusum.js';
import { type EwmaPlan, ewma } from '../charts/ewma.js';

interface Watched {
  readonly high: number;
  readonly low: number;
  readonly average: number;
  readonly averageLimit: number;
  readonly signal: 'more' | 'less' | null;
}

/**
 * Cumulative sums and a moving average of one series, which begin again after each signal and where the series has a gap (`null`). `partedAt` is, for the last signal, the
 * index of the last point before its sum began to grow; signals in one direction that follow each other without the sum coming to rest are one.
 *
 * Source: as `cusum`; the new start after a signal is common practice.
 */
export function watchSums(values: readonly (number | null)[], sumPlan: CusumPlan, averagePlan: EwmaPlan): { points: Watched[]; partedAt: number | null } {
  const points: Watched[] = [];
  let since: number[] = [];
  let sums = { high: 0, low: 0 };
  let grewFrom = { high: 0, low: 0 };
  let carried = false;
  let partedAt: number | null = null;
  for (const [at, value] of values.entries()) {
    if (value === null) {
      since = [];
      sums = { high: 0, low: 0 };
      carried = false;
      points.push({ high: 0, low: 0, average: 0, averageLimit: 0, signal: null });
      continue;
    }
    since.push(value);
    // A sum that was at rest grows from here; one that began again after a signal goes on from where it first grew.
    const before = Math.max(0, at - 1);
    if (!carried) grewFrom = { high: sums.high === 0 ? before : grewFrom.high, low: sums.low === 0 ? before : grewFrom.low };
    const last = cusum(since, sumPlan).at(-1);
    sums = { high: last?.high ?? 0, low: last?.low ?? 0 };
    if (carried) grewFrom = { high: sums.high === 0 ? at : grewFrom.high, low: sums.low === 0 ? at : grewFrom.low };
    carried = false;
    const moving = ewma(since, averagePlan).at(-1);
    const isHigh = last?.signal === 'high' || moving?.signal === 'high';
    const isLow = last?.signal === 'low' || moving?.signal === 'low';
    const signal = isHigh ? 'more' : isLow ? 'less' : null;
    points.push({ ...sums, average: moving?.average ?? 0, averageLimit: moving?.limit ?? 0, signal });
    if (signal === null) continue;
    partedAt = signal === 'more' ? grewFrom.high : grewFrom.low;
    since = [];
    sums = { high: 0, low: 0 };
    carried = true;
  }
  return { points, partedAt };
}
