import { faultIn } from '../app/index.js';
import { dayPlus, daysBetween } from '../shared/day.js';
import type { Period } from './core/period-data.js';
import type { ReportPeriodQuery } from './reports.dto.js';

const USUAL_DAYS = 90;
const MOST_YEARS = 3;
const MOST_DAYS = MOST_YEARS * 366;

/** The days that are asked for, or those that are usual. */
export function periodOf({ from: asked, to }: Pick<ReportPeriodQuery, 'from' | 'to'>, today: string): Period {
  const last = to ?? (asked !== undefined && asked > today ? asked : today);
  const from = asked ?? dayPlus(last, 1 - USUAL_DAYS);
  if (from > last) throw faultIn('from', `The first day (${from}) lies after the last (${last}); change one of them`);
  if (daysBetween(from, last) >= MOST_DAYS)
    throw faultIn(
      'from',
      `From ${from} to ${last} are ${daysBetween(from, last) + 1} days; a report takes ${MOST_YEARS} years at most: begin later, or ask for several`,
    );
  return { from, to: last };
}
