import type { ScenarioSample } from '../types.js';
import { type Course, temperatureAt, turbidityAt } from './course.js';
import { operate, type TrueCycle } from './operate.js';
import { MINUTE_MS } from './period.js';
import { type Random, randomOf } from './random.js';
import { shownOf } from './transmitters.js';

/** Values of the signal `mode`. */
const MODES = { filtration: 1, backwash: 2, chemicalClean: 3, standby: 4 } as const;

/** One row a minute from a moment to the end of the record: the same cycles as `operate` gives, looked at from minute to minute. */
export function* minuteSamples(course: Course, fromMs: number): Generator<ScenarioSample> {
  const { plan, period, stops } = course;
  const random = randomOf(`${plan.key} samples`);
  const cycles = operate(course);
  let before: TrueCycle | null = null;
  let next = cycles.next();
  let backwashes = 0;
  for (let ms = Math.ceil(fromMs / MINUTE_MS) * MINUTE_MS; ms < period.untilMs; ms += MINUTE_MS) {
    while (!next.done && next.value.startMs <= ms) {
      before = next.value;
      backwashes += 1;
      next = cycles.next();
    }
    if (before === null) continue;
    const minutes: number = (ms - before.startMs) / MINUTE_MS;
    // Nothing is known yet of the cycle that is under way when the record ends.
    if (next.done && minutes >= before.minutes + plan.backwashMinutes) return;
    const inStop = stops.some((stop) => ms >= stop.fromMs && ms < stop.toMs && (stop.why === 'CEB' || stop.why === 'CIP'));
    const values = minutes < before.minutes ? filtering(course, before, minutes, ms, random) : standing(course, ms, random);
    const mode = modeAt(minutes - before.minutes, plan.backwashMinutes, inStop);
    yield { at: new Date(ms), values: { mode, backwash_count: backwashes, ...values } };
  }
}

function modeAt(minutesAfterCycle: number, backwashMinutes: number, isCleaned: boolean): number {
  if (minutesAfterCycle < 0) return MODES.filtration;
  if (isCleaned) return MODES.chemicalClean;
  return minutesAfterCycle < backwashMinutes ? MODES.backwash : MODES.standby;
}

function filtering(course: Course, cycle: TrueCycle, minutes: number, ms: number, random: Random): ScenarioSample['values'] {
  const tmpKpa = cycle.startKpa + ((cycle.endKpa - cycle.startKpa) * minutes) / cycle.minutes + 0.4 * random.normal();
  // Valves move and the pump runs up in the first minute.
  const share = (minutes < 1 ? 0.6 + 0.4 * minutes : 1) * (1 + 0.006 * random.normal());
  const shown = shownOf(course.plan, {
    tmpKpa: tmpKpa * Math.min(1, share),
    flowM3h: cycle.flowM3h * share,
    temperatureC: temperatureAt(course, ms),
    turbidityNtu: turbidityAt(course, ms) * (1 + 0.04 * random.normal()),
    cartridgeKpa: cycle.cartridgeKpa === null ? null : cycle.cartridgeKpa * share,
  });
  return {
    filtrate_flow: round(shown.flowM3h, 100),
    ...(shown.feedKpa === null ? {} : { feed_pressure: round(shown.feedKpa, 10) }),
    ...(shown.filtrateKpa === null ? {} : { filtrate_pressure: round(shown.filtrateKpa, 10) }),
    ...(shown.concentrateKpa === null ? {} : { concentrate_pressure: round(shown.concentrateKpa, 10) }),
    ...(shown.tmpKpa === null ? {} : { tmp: round(shown.tmpKpa, 10) }),
    ...(shown.cartridgeDpKpa === null ? {} : { cartridge_dp: round(shown.cartridgeDpKpa, 10) }),
    temperature: round(shown.temperatureC, 10),
    feed_turbidity: round(shown.feedTurbidityNtu, 100),
  };
}

/** No filtrate: in a backwash and in standby the pressures say nothing of the membrane, and water that stands takes the warmth of the hall. */
function standing(course: Course, ms: number, random: Random): ScenarioSample['values'] {
  return {
    filtrate_flow: 0,
    feed_pressure: round(8 + 2 * random.normal(), 10),
    filtrate_pressure: round(30 + 2 * random.normal(), 10),
    temperature: round(temperatureAt(course, ms) + 0.3, 10),
    feed_turbidity: round(turbidityAt(course, ms), 100),
  };
}

const round = (value: number | null, steps: number): number => Math.round((value ?? 0) * steps) / steps;
