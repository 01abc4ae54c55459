import { PLANNING_DAYS, WATCH_DAYS } from './core/planning.js';

/**
 * The standing of one need as SQL over the columns best_on, latest_on and today, all dates: the same rule as `standingOf`, where a list is
 * filtered, sorted and counted by it. A test holds the two against each other.
 */
export const STANDING_SQL = `CASE
  WHEN coalesce(latest_on, best_on) < today THEN 'overdue'
  WHEN best_on <= today + ${PLANNING_DAYS} THEN 'due'
  WHEN best_on <= today + ${WATCH_DAYS} THEN 'watch'
  WHEN best_on IS NULL THEN 'no-data'
  ELSE 'steady' END`;

/** Most urgent first, as in `standingRank`. */
export const STANDING_RANK_SQL = `array_position(ARRAY['overdue', 'due', 'no-data', 'watch', 'steady'], standing)`;
