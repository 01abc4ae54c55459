import type { CycleFact } from '../../src/intake/core/cycle-fact.js';
import { type TmpBasis, transmembraneKpa } from '../../src/intake/core/tmp.js';
import { QUALITY } from '../../src/shared/quality.js';
import type { SensorFault, SkidPlan } from '../plan.js';
import type { Course } from './course.js';
import { isWithin } from './duty.js';
import { operate } from './operate.js';
import { MINUTE_MS } from './period.js';
import { randomOf } from './random.js';
import { shownOf, withFaults } from './transmitters.js';

/** Where the windows of a cycle lie: start-of-cycle value between minutes 2 and 5, middle of the time after minute 2, end-of-cycle value in the last two. */
const START_MINUTE = 3.5;
const SETTLED_FROM_MINUTE = 2;
const END_BEFORE_MINUTE = 1;
const SHORTEST_WITH_WINDOWS = 7;
/** Cycles after which a value that does not move is noticed */
const STUCK_NOTICED_AFTER = 6;

/** The cycles of a skid as its gateway reports them: with the scatter, rounding and faults of its transmitters, and without those of an outage. */
export function* reportedCycles(course: Course, cyclesPerDay?: number): Generator<CycleFact> {
  const { plan, period } = course;
  const { faults = [], outages = [] } = plan;
  const random = randomOf(`${plan.key} transmitters`);
  const memory = new Map<SensorFault, number | null>();
  const basis = basisOf(plan);
  let stuckFor = 0;
  for (const cycle of operate(course, cyclesPerDay)) {
    const { startMs, minutes, startKpa, endKpa, temperatureC, cartridgeKpa } = cycle;
    const middle = Math.min(1, (1 + SETTLED_FROM_MINUTE / minutes) / 2);
    const tmpKpa = startKpa + (endKpa - startKpa) * middle + 0.25 * random.normal();
    const flowM3h = cycle.flowM3h * (1 + 0.003 * random.normal());
    const turbidityNtu = cycle.turbidityNtu * (1 + 0.04 * random.normal());
    const sound = shownOf(plan, { tmpKpa, flowM3h, temperatureC, turbidityNtu, cartridgeKpa });
    const shown = withFaults(sound, faults, startMs, period, memory);
    const isStuck = faults.some((fault) => fault.kind === 'stuck' && isWithin(startMs, fault, period));
    stuckFor = isStuck ? stuckFor + 1 : 0;
    if (outages.some((outage) => isWithin(startMs, outage, period))) continue;
    const transmembrane = transmembraneKpa(shown, basis);
    const tmpAt = (share: number): number | null =>
      transmembrane.kind === 'missing' || minutes < SHORTEST_WITH_WINDOWS ? null : round(transmembrane.tmpKpa + (endKpa - startKpa) * (share - middle), 10);
    yield {
      startedAt: new Date(startMs),
      endedAt: new Date(startMs + Math.round(minutes * MINUTE_MS)),
      filtrationMinutes: round(minutes, 1000),
      filtrateM3: round(cycle.filtrateM3, 1000),
      flowM3h: rounded(shown.flowM3h, 100),
      feedKpa: rounded(shown.feedKpa, 10),
      filtrateKpa: rounded(shown.filtrateKpa, 10),
      concentrateKpa: rounded(shown.concentrateKpa, 10),
      tmpKpa: rounded(shown.tmpKpa, 10),
      tmpStartKpa: tmpAt(START_MINUTE / minutes),
      tmpEndKpa: tmpAt(1 - END_BEFORE_MINUTE / minutes),
      temperatureC: rounded(shown.temperatureC, 10),
      cartridgeDpKpa: rounded(shown.cartridgeDpKpa, 10),
      feedTurbidityNtu: rounded(shown.feedTurbidityNtu, 100),
      quality: stuckFor > STUCK_NOTICED_AFTER ? QUALITY.stuck : QUALITY.good,
      byHand: false,
    };
  }
}

function basisOf(plan: SkidPlan): TmpBasis {
  const { flowScheme: scheme, tmpFrom, feedHeightM, filtrateHeightM, concentrateHeightM } = plan;
  return { scheme, tmpFrom, feedHeightM, filtrateHeightM, concentrateHeightM };
}

const round = (value: number, steps: number): number => Math.round(value * steps) / steps;
const rounded = (value: number | null, steps: number): number | null => (value === null ? null : round(value, steps));
