import { fromStored, type UnitCode } from '../../src/shared/units.js';
import { SITE_OPERATOR, TECHNICIANS } from '../data/people.js';
import type { HandValue, ScenarioHandReading, ScenarioMeter, ScenarioMeterReading } from '../types.js';
import type { Course } from './course.js';
import { operate, type TrueCycle } from './operate.js';
import { DAY_MS, MINUTE_MS, nextWorkday } from './period.js';
import { positionKey } from './positions.js';
import { type Random, randomOf } from './random.js';
import { shownOf } from './transmitters.js';

/** Unit and smallest division of each gauge or display. */
interface Gauges {
  readonly pressure: readonly [UnitCode, number];
  readonly flow: readonly [UnitCode, number];
  readonly temperature: readonly [UnitCode, number];
  readonly total: readonly [UnitCode, number];
}

const METRIC: Gauges = { pressure: ['bar', 0.02], flow: ['m3/h', 0.2], temperature: ['Cel', 0.5], total: ['m3', 1] };
const US: Gauges = { pressure: ['[psi]', 0.5], flow: ['[gal_us]/min', 1], temperature: ['[degF]', 1], total: ['[gal_us]', 100] };
const HOUR_METER_STEP = 0.1;

/** What people wrote down once a week, or every so many days, and the hour meter of the feed pump that they read at the same moment. */
export function handRecord(course: Course, cyclesPerDay?: number, everyDays = 7): { readings: ScenarioHandReading[]; meter: ScenarioMeter } {
  const { plan, period, offsetMs } = course;
  const random = randomOf(`${plan.key} by hand`);
  const bornDaysBefore = plan.commissionedDaysAgo - (period.untilMs - period.fromMs) / DAY_MS;
  // A plant that is older than the record comes with counters that stand somewhere.
  const counted = {
    hours: bornDaysBefore * 24 * 0.83,
    m3: bornDaysBefore * 20 * plan.ratedFlowM3h,
    cycles: Math.round((bornDaysBefore * 1200) / plan.cycleMinutes),
  };
  const readings: ScenarioHandReading[] = [];
  const hourReadings: ScenarioMeterReading[] = [];
  const endMs = period.untilMs - (plan.silentForDays ?? 0) * DAY_MS;
  const nextVisit = (ms: number) => nextWorkday(ms, 9, offsetMs) + Math.round(random.between(0, 45)) * MINUTE_MS;
  let visitMs = nextVisit(period.fromMs);
  for (const cycle of operate(course, cyclesPerDay)) {
    // In a backwash or in standby the reader waits for water to run, and then a few minutes more.
    const atMs = Math.max(visitMs, cycle.startMs + 3 * MINUTE_MS);
    const minutes = (atMs - cycle.startMs) / MINUTE_MS;
    if (minutes < cycle.minutes - 0.5 && atMs < endMs) {
      const at = new Date(Math.round(atMs / MINUTE_MS) * MINUTE_MS);
      const m3 = counted.m3 + (cycle.flowM3h * minutes) / 60;
      readings.push({ skidKey: plan.key, at, ...readingOf(course, cycle, minutes, { m3, cycles: counted.cycles }, random) });
      hourReadings.push({ kind: 'reading', at, value: Math.floor((counted.hours + minutes / 60) / HOUR_METER_STEP) / Math.round(1 / HOUR_METER_STEP) });
      visitMs = nextVisit(atMs + (everyDays - 0.8) * DAY_MS);
    }
    counted.hours += cycle.minutes / 60;
    counted.m3 += cycle.filtrateM3;
    counted.cycles += 1;
  }
  const meter = {
    positionKey: positionKey(plan.key, 'Feed pump'),
    kind: 'run hours',
    modulus: null,
    readingError: HOUR_METER_STEP / 2,
    readings: hourReadings,
  } as const;
  return { readings, meter };
}

function readingOf(
  { plan }: Course,
  cycle: TrueCycle,
  minutes: number,
  counted: { m3: number; cycles: number },
  random: Random,
): Omit<ScenarioHandReading, 'skidKey' | 'at'> {
  const isUs = plan.readBy === 'gauges in US units';
  const gauges = isUs ? US : METRIC;
  const tmpKpa = cycle.startKpa + ((cycle.endKpa - cycle.startKpa) * minutes) / cycle.minutes;
  const shown = shownOf(plan, { ...cycle, tmpKpa });
  const value = (stored: number | null, gauge: readonly [UnitCode, number]) => (stored === null ? null : read(stored, gauge, random));
  // Between the gauges before and after the cartridges lies their pressure drop; the second one is about the feed of the membrane.
  const afterKpa = (shown.feedKpa ?? 0) + 12;
  const hasThermometer = random.uniform() < 0.92;
  const saysTime = random.uniform() < 0.72;
  const values = {
    feed_pressure: value(shown.feedKpa, gauges.pressure),
    filtrate_pressure: value(shown.filtrateKpa, gauges.pressure),
    cartridge_inlet_pressure: value(shown.cartridgeDpKpa === null ? null : afterKpa + shown.cartridgeDpKpa, gauges.pressure),
    cartridge_outlet_pressure: value(shown.cartridgeDpKpa === null ? null : afterKpa, gauges.pressure),
    filtrate_flow: value(shown.flowM3h, gauges.flow),
    temperature: hasThermometer ? value(shown.temperatureC, gauges.temperature) : null,
    filtrate_total: down(counted.m3, gauges.total),
    backwash_count: { value: counted.cycles, unit: '1' as const, smallestDivision: 1 },
  };
  return {
    readBy: isUs ? SITE_OPERATOR : random.pick(TECHNICIANS),
    minutesSinceBackwash: saysTime ? Math.round(minutes) : null,
    values: Object.fromEntries(Object.entries(values).filter(([, entry]) => entry !== null)),
  };
}

/** A person reads to the nearest mark and is off by some of a division. */
function read(stored: number, [unit, smallestDivision]: readonly [UnitCode, number], random: Random): HandValue {
  const divisions = fromStored(stored, unit) / smallestDivision;
  return { value: marks(Math.round(divisions + 0.2 * random.normal()), smallestDivision), unit, smallestDivision };
}

/** A counter shows the last whole step. */
function down(stored: number, [unit, smallestDivision]: readonly [UnitCode, number]): HandValue {
  return { value: marks(Math.floor(fromStored(stored, unit) / smallestDivision), smallestDivision), unit, smallestDivision };
}

/** 61 marks of 0.02 are 1.22 and not 1.2200000000000002. */
function marks(count: number, smallestDivision: number): number {
  return Number((count * smallestDivision).toFixed(3));
}
