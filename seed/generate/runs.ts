import type { EndOfRun } from '../plan.js';
import type { LoadClock } from './clock.js';
import { DAY_MS, type Period } from './period.js';
import type { Random } from './random.js';

/** What a part goes through from one renewal to the next: a set of cartridges, or a membrane between two recovery cleans. */
export interface Run {
  readonly fromMs: number;
  /** `null`: it lasts beyond the record */
  readonly toMs: number | null;
  /** What the load clock shows at its beginning, and the load with which the limit is met */
  readonly fromLoad: number;
  readonly lifeLoad: number;
}

export interface RunHabits extends EndOfRun {
  /** Standard deviation of ln(life) from run to run */
  readonly spread: number;
  /** Share of the life after which people renew the part */
  spent(random: Random): number;
  /** The first moment at or after another at which people do the work */
  workday(ms: number): number;
}

/**
 * The runs of a record, in order of time. They are laid from the end of the record backwards, so that the last one meets its limit when the plan says, whatever
 * the weather was; the first one may have begun before the record, but not before the part existed.
 */
export function runsOf(clock: LoadClock, habits: RunHabits, bornMs: number, period: Period, random: Random): Run[] {
  const lastFrom = Math.max(bornMs, habits.workday(period.untilMs - habits.lastDaysAgo * DAY_MS));
  const passed = clock.at(period.untilMs) - clock.at(lastFrom);
  const usualLoad = (passed * (habits.lastDaysAgo + habits.limitInDays)) / habits.lastDaysAgo;
  const runs: Run[] = [{ fromMs: lastFrom, toMs: null, fromLoad: clock.at(lastFrom), lifeLoad: usualLoad }];
  let toMs = lastFrom;
  while (toMs > period.fromMs && toMs > bornMs) {
    const spent = habits.spent(random);
    const load = usualLoad * Math.exp(habits.spread * random.normal()) * spent;
    const fromMs = Math.max(bornMs, Math.min(habits.workday(clock.when(clock.at(toMs) - load)), toMs - DAY_MS));
    // A weekend in between makes the run a little shorter than was drawn: the life is what was left, so that the end is as spent as it was to be.
    runs.push({ fromMs, toMs, fromLoad: clock.at(fromMs), lifeLoad: (clock.at(toMs) - clock.at(fromMs)) / spent });
    toMs = fromMs;
  }
  return runs.reverse();
}

/** The run that a moment falls into. */
export function runAt(runs: readonly [Run, ...Run[]] | readonly Run[], ms: number): Run | undefined {
  return runs.findLast(({ fromMs }) => fromMs <= ms);
}

/** How much of its life a run has spent at a moment: 0 new, 1 at the limit. */
export function spentShare(run: Run, clock: LoadClock, ms: number): number {
  return Math.max(0, (clock.at(ms) - run.fromLoad) / run.lifeLoad);
}
