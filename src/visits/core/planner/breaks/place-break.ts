import { least } from 'd3-array';
import type { BreakRule, Span } from '../plan-input.js';
import { beginByClock, endByClock } from './working-clock.js';

const ROUNDING = 1e-6;

/** A day as it was searched, in minutes without the break. */
export interface DayWithoutBreak {
  readonly leave: number;
  readonly back: number;
  /** By the clock: a break on the other side of it would be overtime, or would be none any more */
  readonly regularUntil: number;
  readonly stops: readonly StopWithoutBreak[];
}

export interface StopWithoutBreak {
  readonly arrive: number;
  readonly start: number;
  readonly end: number;
  /** Between which it may begin */
  readonly from: number;
  readonly until: number;
  /** Two people begin and end it together: by the clock it stays where it is */
  readonly fixed: boolean;
}

/**
 * Where the break of a day is best taken: on arrival at a site or before leaving it, as near as can be to the usual break with which the day was searched, and with every visit
 * still in its window; else at the usual time, on the way or in the midst of work. Null: the tour begins after it or ends before it.
 */
export function placeBreak({ from, until, minutes }: BreakRule, usual: Span, day: DayWithoutBreak): Span | null {
  if (usual.from <= day.leave || usual.from >= day.back) return null;
  const moments = day.stops.flatMap(({ arrive, end }) => [arrive, end]);
  const possible = moments
    .filter(
      (moment) =>
        moment > day.leave && moment < day.back && moment >= from && moment + minutes <= until && moment < day.regularUntil === usual.from < day.regularUntil,
    )
    .map((moment) => ({ from: moment, until: moment + minutes }))
    .filter((pause) => day.stops.every((stop) => keepsItsTime(stop, pause, usual)));
  return least(possible, (pause) => Math.abs(pause.from - usual.from)) ?? usual;
}

/** In its window by the clock with either break. */
function keepsItsTime({ start, end, from, until, fixed }: StopWithoutBreak, pause: Span, usual: Span): boolean {
  const [begins, ends] = [beginByClock(pause, start), endByClock(pause, end)];
  if (fixed) return begins === beginByClock(usual, start) && ends === endByClock(usual, end);
  const [first, last] = [beginByClock(usual, from), beginByClock(usual, until)];
  return begins >= first - ROUNDING && begins <= last + ROUNDING && ends <= endByClock(usual, until + end - start) + ROUNDING;
}
