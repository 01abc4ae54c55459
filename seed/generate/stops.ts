import type { SkidPlan } from '../plan.js';
import { DAY_MS, HOUR_MS, MINUTE_MS, nextAtHour, nextWorkday, type Period } from './period.js';
import { seedOf } from './random.js';
import type { Run } from './runs.js';

/** A time in which the skid makes no water for a reason known beforehand. */
export interface Stop {
  readonly why: 'CEB' | 'CIP' | 'cartridges' | 'repair' | 'laid up';
  readonly fromMs: number;
  readonly toMs: number;
  /** Of a maintenance clean: with acid */
  readonly acid: boolean;
}

const CEB_MINUTES = 28;
const CIP_HOURS = 6;
const CARTRIDGE_MINUTES = 50;
const REPAIR_HOURS = 3;

interface StopsInput {
  readonly plan: SkidPlan;
  readonly period: Period;
  readonly offsetMs: number;
  readonly membraneRuns: readonly Run[];
  readonly cartridgeRuns: readonly Run[];
}

/** Stops in order of time, none beginning before the one before is over. */
export function stopsOf(input: StopsInput): Stop[] {
  const { plan, period, membraneRuns, cartridgeRuns } = input;
  const stop = (why: Stop['why'], fromMs: number, lengthMs: number): Stop => ({ why, fromMs, toMs: fromMs + lengthMs, acid: false });
  const laidUp = plan.laidUp
    ? [stop('laid up', period.untilMs - plan.laidUp.fromDaysAgo * DAY_MS, (plan.laidUp.fromDaysAgo - plan.laidUp.toDaysAgo) * DAY_MS)]
    : [];
  const planned = [
    ...laidUp,
    // A run that began with a new skid or before the record had no clean or change within it.
    ...membraneRuns.map(({ fromMs }) => stop('CIP', fromMs, CIP_HOURS * HOUR_MS)),
    ...cartridgeRuns.map(({ fromMs }) => stop('cartridges', fromMs, CARTRIDGE_MINUTES * MINUTE_MS)),
    ...repairs(input).map((ms) => stop('repair', ms, REPAIR_HOURS * HOUR_MS)),
    ...maintenanceCleans(input),
  ].filter(({ fromMs, toMs }) => fromMs > period.fromMs && toMs < period.untilMs);
  planned.sort((a, b) => a.fromMs - b.fromMs);
  return planned.filter((one, index) => !planned.some((other, place) => place < index && other.toMs > one.fromMs && other.why !== 'CEB'));
}

/** When the seal was renewed, and when a module was isolated and replaced. */
function repairs({ plan, period, offsetMs }: StopsInput): number[] {
  const { wear, isolatedModule } = plan;
  const daysAgo = [...(wear ? [wear.sealDaysAgo] : []), ...(isolatedModule ? [isolatedModule.fromDaysAgo, isolatedModule.toDaysAgo] : [])];
  return daysAgo.map((days) => repairTime(days, period, offsetMs));
}

export function repairTime(daysAgo: number, { untilMs }: Period, offsetMs: number): number {
  return nextWorkday(untilMs - daysAgo * DAY_MS, 13, offsetMs);
}

function maintenanceCleans({ plan, period, offsetMs }: StopsInput): Stop[] {
  if (plan.ceb === null) return [];
  const { everyDays, acidEvery } = plan.ceb;
  const minute = seedOf(`${plan.key} CEB`) % 60;
  const cleans: Stop[] = [];
  const firstMs = nextAtHour(period.fromMs, 2, offsetMs) + minute * MINUTE_MS;
  for (let fromMs = firstMs; fromMs < period.untilMs; fromMs += everyDays * DAY_MS) {
    cleans.push({ why: 'CEB', fromMs, toMs: fromMs + CEB_MINUTES * MINUTE_MS, acid: cleans.length % acidEvery === acidEvery - 1 });
  }
  return cleans;
}
