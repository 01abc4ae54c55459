import { type LifePoint, lifeAt } from './life-at.js';

export interface DailyUse {
  readonly kind: 'daily-use';
  readonly perDay: number;
  /** Days that it was made from, up to the latest reading */
  readonly days: number;
}

const DAY_MS = 86_400_000;

/**
 * Average daily use of a machine by its counter, the rate at which its next service comes nearer: what it counted over the recent window, per day.
 *
 * The window ends at the latest reading; between the two readings around its beginning the count is taken to have risen evenly. A record that is shorter
 * than the window counts as a whole, down to `leastDays`. A change of duty calls for a shorter window. A machine that stood still has a use of 0, so that
 * only the calendar limits its service. `mostPerDay` caps the rate: 24 for run hours.
 *
 * Source: window of 30 to 90 days by common practice.
 *
 * @example averageDailyUse([{ at: new Date('2025-01-01T00:00:00Z'), life: 0 }, { at: new Date('2025-01-21T00:00:00Z'), life: 350 }], { windowDays: 60, leastDays: 7, mostPerDay: 24 }) // => { "kind": "daily-use", "perDay": 17.5, "days": 20 }
 */
export function averageDailyUse(
  points: readonly LifePoint[],
  { windowDays, leastDays, mostPerDay }: { windowDays: number; leastDays: number; mostPerDay: number | null },
): DailyUse | { readonly kind: 'too-little-data'; readonly have: number; readonly need: number } {
  const first = points[0];
  const last = points.at(-1);
  const recordDays = first && last ? (last.at.getTime() - first.at.getTime()) / DAY_MS : 0;
  const days = Math.min(recordDays, windowDays);
  if (!last || !(days > 0) || days < leastDays) return { kind: 'too-little-data', have: recordDays, need: leastDays };
  const perDay = (last.life - lifeAt(points, new Date(last.at.getTime() - days * DAY_MS))) / days;
  return { kind: 'daily-use', perDay: Math.min(perDay, mostPerDay ?? perDay), days };
}
