import type { SkidPlan } from '../plan.js';
import type { ScenarioMeter, ScenarioMeterReading } from '../types.js';
import type { Course } from './course.js';
import { type History, sumUntil } from './history.js';
import { DAY_MS, MINUTE_MS, nextWorkday, type Period } from './period.js';
import { positionKey } from './positions.js';
import { randomOf } from './random.js';

/** What a machine had counted at a moment since it was built. */
export type Count = (ms: number) => number;

export interface MachineCount {
  readonly positionKey: string;
  readonly kind: ScenarioMeter['kind'];
  readonly count: Count;
}

const MODULUS = 10_000;
const ROLLED_OVER_DAYS_AGO = 270;
const EXCHANGED_DAYS_AGO = 240;
const COMPRESSOR_MINUTES_PER_CYCLE = 1.6;
const COMPRESSOR_CYCLES_PER_START = 3;

/** Machines of a skid that count their hours. */
export function countsOfSkid({ plan, period }: Course, history: History): MachineCount[] {
  const bornMs = period.untilMs - plan.commissionedDaysAgo * DAY_MS;
  const hours = since(bornMs, sumUntil(history.hours, history.firstMs));
  const cycles = since(bornMs, sumUntil(history.cycles, history.firstMs));
  const isSubmerged = plan.flowScheme === 'submerged';
  const counts: [string, Count][] = [
    [isSubmerged ? 'Filtrate pump' : 'Feed pump', hours],
    ['Backwash pump', (ms) => (cycles(ms) * plan.backwashMinutes) / 60],
    ...(isSubmerged ? ([['Air scour blower', (ms) => (cycles(ms) * (plan.backwashMinutes + 1)) / 60]] satisfies [string, Count][]) : []),
  ];
  return counts.map(([name, count]) => ({ positionKey: positionKey(plan.key, name), kind: 'run hours', count }));
}

/** The compressor drives the valves of the skids that it serves, and so counts with their cycles. */
export function countsOfCompressor(key: string, bornMs: number, served: readonly History[]): MachineCount[] {
  const sums = served.map(({ cycles, firstMs }) => since(bornMs, sumUntil(cycles, firstMs)));
  const cycles: Count = (ms) => sums.reduce((total, sum) => total + sum(ms), 0);
  const compressor = positionKey(key, 'Compressor');
  return [
    { positionKey: compressor, kind: 'run hours', count: (ms) => (cycles(ms) * COMPRESSOR_MINUTES_PER_CYCLE) / 60 },
    { positionKey: compressor, kind: 'starts', count: (ms) => cycles(ms) / COMPRESSOR_CYCLES_PER_START },
  ];
}

const since =
  (bornMs: number, sum: Count): Count =>
  (ms) =>
    Math.max(0, sum(ms) - sum(bornMs));

export type MeterStory = SkidPlan['feedPumpMeter'];

/** What the display of a counter shows at a moment: whole numbers, and on some a rollover or an exchange on the way. */
export function displayOf(count: Count, story: MeterStory, period: Period, offsetMs: number): Count {
  const rolledMs = period.untilMs - ROLLED_OVER_DAYS_AGO * DAY_MS;
  const exchangedMs = exchangeTime(period, offsetMs);
  return (ms) => {
    if (story === 'rolls over') return positiveRest(Math.floor(count(ms) - count(rolledMs)), MODULUS);
    return Math.floor(count(ms) - (story === 'was exchanged' && ms > exchangedMs ? count(exchangedMs) : 0));
  };
}

/** A counter as people read it every so many days. */
export function meterOf(
  { positionKey: key, kind, count }: MachineCount,
  everyDays: number,
  story: MeterStory,
  period: Period,
  offsetMs: number,
): ScenarioMeter {
  const random = randomOf(`${key} ${kind} readings`);
  const display = displayOf(count, story, period, offsetMs);
  const readings: ScenarioMeterReading[] = [];
  for (let dueMs = period.fromMs + DAY_MS; dueMs < period.untilMs; dueMs += everyDays * DAY_MS) {
    const atMs = nextWorkday(dueMs, 10, offsetMs) + Math.round(random.between(0, 90)) * MINUTE_MS;
    if (atMs < period.untilMs) readings.push({ kind: 'reading', at: new Date(atMs), value: display(atMs) });
  }
  const exchangedMs = exchangeTime(period, offsetMs);
  if (story === 'was exchanged' && exchangedMs > period.fromMs) {
    readings.push({ kind: 'exchange', at: new Date(exchangedMs), oldFinal: display(exchangedMs), newInitial: 0 });
    readings.sort((a, b) => a.at.getTime() - b.at.getTime());
  }
  return { positionKey: key, kind, modulus: story === 'rolls over' ? MODULUS : null, readingError: 0.5, readings };
}

const exchangeTime = ({ untilMs }: Period, offsetMs: number): number => nextWorkday(untilMs - EXCHANGED_DAYS_AGO * DAY_MS, 9, offsetMs);

const positiveRest = (value: number, modulus: number): number => ((value % modulus) + modulus) % modulus;
