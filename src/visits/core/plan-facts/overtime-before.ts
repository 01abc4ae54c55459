import { greatest, group, sum } from 'd3-array';
import type { Day } from '../../../shared/day.js';
import { minutesOfDay } from './local-time.js';

/** A visit of the week in which a plan begins, on a day before it. */
export interface VisitBefore {
  readonly siteId: string;
  readonly onDay: Day;
  readonly startTime: string;
  /** As planned, with a break */
  readonly minutes: number;
  readonly personIds: readonly string[];
  /** When the last job sheet of that day says that the work ended, in minutes of the day; null: none has come */
  readonly endedAt: number | null;
}

export interface OvertimeBefore {
  readonly minutes: number;
  /** Some of it from planned ends, or without a known way home */
  readonly estimated: boolean;
}

/**
 * The overtime that somebody has had, or will have had, in the week before a plan begins: day by day what the last visit and the way home from it take after the regular end. The end is
 * that of the job sheets, else the planned one. Nights away are not known: each day counts as one that ended at home.
 *
 * @param wayHome in minutes; null: not known, and not counted
 * @example overtimeBefore({ id: 'a', regularUntil: '16:00' }, [{ siteId: 's', onDay: '2026-11-30', startTime: '13:00', minutes: 180, personIds: ['a'], endedAt: null }], () => 45) // => { "minutes": 45, "estimated": true }
 */
export function overtimeBefore(
  { id, regularUntil }: { readonly id: string; readonly regularUntil: string },
  visits: readonly VisitBefore[],
  wayHome: (siteId: string) => number | null,
): OvertimeBefore {
  const regular = minutesOfDay(regularUntil);
  const own = visits.filter(({ personIds }) => personIds.includes(id));
  const days = [...group(own, ({ onDay }) => onDay).values()].flatMap((ofDay) => {
    const ends = ofDay.map(({ siteId, startTime, minutes, endedAt }) => {
      const way = wayHome(siteId);
      return { over: (endedAt ?? minutesOfDay(startTime) + minutes) + (way ?? 0) - regular, estimated: endedAt === null || way === null };
    });
    const last = greatest(ends, ({ over }) => over);
    return last !== undefined && last.over > 0 ? [last] : [];
  });
  return { minutes: sum(days, ({ over }) => over), estimated: days.some(({ estimated }) => estimated) };
}
