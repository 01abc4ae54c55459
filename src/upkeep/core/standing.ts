import { type Day, dayPlus } from '../../shared/day.js';
import { type Standing, standingRank } from '../../shared/standing.js';
import { PLANNING_DAYS, WATCH_DAYS } from './planning.js';

/** The day of a need and its latest day; `today` is the day at the site. */
export interface NeedDays {
  readonly dueOn: Day | null;
  readonly latestOn: Day | null;
  readonly today: Day;
  readonly planningDays?: number;
  readonly watchDays?: number;
}

/**
 * The status word of a need: Overdue once its latest day (its due day where it has none) is passed, Due up to the end of the planning horizon, Watch for
 * as long again as it is worth an eye, then Steady. No data where no day is known.
 *
 * @example standingOf({ dueOn: '2025-12-01', latestOn: null, today: '2025-11-25' }) // => "due"
 */
export function standingOf({ dueOn, latestOn, today, planningDays = PLANNING_DAYS, watchDays = WATCH_DAYS }: NeedDays): Standing {
  if (dueOn === null) return 'no-data';
  if ((latestOn ?? dueOn) < today) return 'overdue';
  if (dueOn <= dayPlus(today, planningDays)) return 'due';
  return dueOn <= dayPlus(today, watchDays) ? 'watch' : 'steady';
}

/**
 * The standing of a whole, from its needs: the most urgent of them. Steady where there is no need at all.
 *
 * @example worstStanding(['steady', 'due', 'watch']) // => "due"
 */
export function worstStanding(standings: readonly Standing[]): Standing {
  return standings.reduce<Standing>((worst, one) => (standingRank(one) < standingRank(worst) ? one : worst), 'steady');
}
