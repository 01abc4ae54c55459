import type { Stay } from './tour-geometry.js';

/** How late a stay could still end, and what sets that. */
export interface Limit {
  readonly at: number;
  readonly by: 'site' | 'shift' | 'promise';
}

export interface LimitFacts {
  /** When the day of the tour is over, where its person has a shift */
  readonly shiftUntil: number | null;
  readonly back: number;
  /** Until when people are let in where the stay is; null: at any time */
  readonly letInUntil: (stay: Stay) => number | null;
  /** It begins when it was promised, and no later */
  readonly isPromised: (stay: Stay) => boolean;
}

/**
 * The nearest limit of each stay of a tour: the latest minute at which it could end without anything after it coming too late. It is set by the hours of its site, by
 * the end of the shift, or by a promise later on the tour; null where nothing sets it.
 */
export function nearestLimits(stays: readonly Stay[], { shiftUntil, back, letInUntil, isPromised }: LimitFacts): (Limit | null)[] {
  const limits: (Limit | null)[] = [];
  for (const [at, stay] of [...stays.entries()].reverse()) {
    const next = stays[at + 1];
    const after = next === undefined ? ofShift(stay, shiftUntil, back) : ofNext(stay, next, limits[0] ?? null, isPromised(next));
    const open = letInUntil(stay);
    const own: Limit | null = open === null ? null : { at: open, by: 'site' };
    limits.unshift(own === null || (after !== null && after.at < own.at) ? after : own);
  }
  return limits;
}

const ofShift = ({ end }: Stay, shiftUntil: number | null, back: number): Limit | null =>
  shiftUntil === null ? null : { at: shiftUntil - (back - end), by: 'shift' };

function ofNext({ end }: Stay, next: Stay, limit: Limit | null, isPromised: boolean): Limit | null {
  const way = next.arrive - end;
  if (isPromised) return { at: next.start - way, by: 'promise' };
  return limit === null ? null : { at: limit.at - (next.end - next.start) - way, by: limit.by };
}
