import { median, pairs } from 'd3-array';

/** Parts of a filtration cycle that are looked at apart, by time since its start or before its end. */
export interface SamplingGates {
  /** Valves move and pressures swing after a change of state: this long nothing counts */
  readonly settleSeconds: number;
  /** The start-of-cycle value is the median between these two */
  readonly startFromMinutes: number;
  readonly startToMinutes: number;
  /** The end-of-cycle value is the median of the last so many */
  readonly endMinutes: number;
}

/** Common practice: drop one to three minutes; minutes 2 to 5 for the start, the last 2 for the end. */
export const DEFAULT_SAMPLING_GATES: SamplingGates = { settleSeconds: 120, startFromMinutes: 2, startToMinutes: 5, endMinutes: 2 };

export type SamplingGate = 'settling time' | 'start of cycle' | 'end of cycle';

/**
 * Gates that samples so far apart cannot resolve, and that are therefore said and not applied. The settling time needs an interval no longer than itself,
 * since the change of state happened somewhere in the interval before the first sample; a window needs room for two samples. Without an interval nothing is
 * resolved.
 *
 * Source: common practice.
 *
 * @example gatesNotResolvable({ settleSeconds: 120, startFromMinutes: 2, startToMinutes: 5, endMinutes: 2 }, 60) // => []
 * @example gatesNotResolvable({ settleSeconds: 120, startFromMinutes: 2, startToMinutes: 5, endMinutes: 2 }, 90) // => ["end of cycle"]
 */
export function gatesNotResolvable(gates: SamplingGates, intervalSeconds: number | null): SamplingGate[] {
  const interval = intervalSeconds ?? Number.POSITIVE_INFINITY;
  const roomNeeded: [SamplingGate, number, number][] = [
    ['settling time', interval, gates.settleSeconds],
    ['start of cycle', 2 * interval, (gates.startToMinutes - gates.startFromMinutes) * 60],
    ['end of cycle', 2 * interval, gates.endMinutes * 60],
  ];
  return roomNeeded.filter(([, need, have]) => need > have && have > 0).map(([gate]) => gate);
}

/**
 * The usual time between two samples in seconds: the median of the differences, so that gaps do not count; `null` for fewer than two samples.
 *
 * @example medianIntervalSeconds([0, 60000, 120000, 900000]) // => 60
 */
export function medianIntervalSeconds(at: Float64Array | readonly number[]): number | null {
  const interval = median(pairs(at, (before, after) => (after - before) / 1000));
  return interval ?? null;
}
