import type { SitePlan, SkidPlan } from '../plan.js';
import { type LoadClock, loadClock } from './clock.js';
import { type Duty, dutyOf } from './duty.js';
import { atMoment, type FeedWater, feedWater } from './feed-water.js';
import { DAY_MS, nextWorkday, type Period, plantOffsetMs } from './period.js';
import { type Random, randomOf } from './random.js';
import { type Run, runsOf } from './runs.js';
import { type Stop, stopsOf } from './stops.js';

/** All that is settled of a skid's record before the first cycle is made: its water, its duty, its runs and when it stops. */
export interface Course {
  readonly plan: SkidPlan;
  /** Begins when the skid was commissioned, if that was within the record */
  readonly period: Period;
  readonly offsetMs: number;
  readonly water: FeedWater;
  readonly duty: Duty;
  readonly membraneClock: LoadClock;
  readonly membraneRuns: readonly Run[];
  readonly cartridgeClock: LoadClock;
  readonly cartridgeRuns: readonly Run[];
  /** In order of time */
  readonly stops: readonly Stop[];
  areaM2(ms: number): number;
}

export function courseOf(plan: SkidPlan, site: SitePlan, record: Period): Course {
  const bornMs = record.untilMs - plan.commissionedDaysAgo * DAY_MS;
  const period = { fromMs: Math.max(record.fromMs, bornMs), untilMs: record.untilMs };
  const offsetMs = plantOffsetMs(site.longitude);
  const water = feedWater(site, plan.water, period);
  const duty = dutyOf(plan, period, offsetMs);
  const dirtiness = (hour: number) => (water.turbidityNtu[hour] ?? water.usualNtu) / water.usualNtu;
  const membraneClock = loadClock(period, (ms, hour) => duty.expectedM3(ms) * dirtiness(hour) ** 0.25 * (1 + 0.015 * ((water.temperatureC[hour] ?? 15) - 15)));
  const cartridgeClock = loadClock(period, (ms, hour) => duty.expectedM3(ms) * dirtiness(hour) ** 0.8);
  const runs = (name: string, clock: LoadClock, habits: Pick<Parameters<typeof runsOf>[1], 'lastDaysAgo' | 'limitInDays' | 'spread' | 'spent'>, hour: number) =>
    runsOf(clock, { ...habits, workday: (ms) => nextWorkday(ms, hour, offsetMs) }, bornMs, period, randomOf(`${plan.key} ${name}`));
  const membraneRuns = runs('membrane runs', membraneClock, { ...plan.cip, spread: 0.18, spent: cleanedAfter }, 8);
  const { cartridge } = plan;
  const cartridgeRuns = cartridge ? runs('cartridge runs', cartridgeClock, { ...cartridge, spread: 0.15, spent: changedAfter(cartridge.early) }, 10) : [];
  return {
    plan,
    period,
    offsetMs,
    water,
    duty,
    membraneClock,
    membraneRuns,
    cartridgeClock,
    cartridgeRuns,
    stops: stopsOf({ plan, period, offsetMs, membraneRuns, cartridgeRuns }),
    areaM2: (ms) => plan.areaM2 * (moduleIsOut(plan, ms, period) ? 1 - 1 / plan.modules : 1),
  };
}

/** Recovery cleans are done at a loss of 25 to 35 %, the limit being 30 %: resistance grows straight with the load, so that these are shares of the life. */
const cleanedAfter = (random: Random): number => random.between(0.78, 1.25);

const changedAfter = (early: boolean) => (random: Random) => (early ? random.between(0.6, 0.75) : random.between(0.97, 1.02));

function moduleIsOut({ isolatedModule }: SkidPlan, ms: number, { untilMs }: Period): boolean {
  return isolatedModule !== undefined && ms >= untilMs - isolatedModule.fromDaysAgo * DAY_MS && ms < untilMs - isolatedModule.toDaysAgo * DAY_MS;
}

export const temperatureAt = ({ water, period }: Course, ms: number): number => atMoment(water.temperatureC, period, ms);
export const turbidityAt = ({ water, period }: Course, ms: number): number => atMoment(water.turbidityNtu, period, ms);
