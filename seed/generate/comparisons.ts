import type { SignalCode } from '../../src/shared/signals.js';
import { SKIDS } from '../data/skids.js';
import type { Scenario, ScenarioPosition } from '../types.js';
import type { ScenarioCalibration } from '../work-types.js';
import { isWithin } from './duty.js';
import { DAY_MS, dayText, HOUR_MS } from './period.js';
import { randomOf } from './random.js';

interface Range {
  readonly references: readonly number[];
  readonly tolerance: number;
  readonly referenceInstrument: string;
  readonly certificateNo: string;
}

const PRESSURE: Range = { references: [0, 100, 250], tolerance: 2, referenceInstrument: 'Pressure calibrator, 0 to 600 kPa', certificateNo: 'DEMO-CAL-118' };
/** Points of a comparison in the stored unit of the signal. Flows are set by the rated flow of the skid. */
const RANGES: Partial<Record<SignalCode, Range>> = {
  feed_pressure: PRESSURE,
  filtrate_pressure: PRESSURE,
  concentrate_pressure: PRESSURE,
  tmp: { ...PRESSURE, references: [0, 50, 100] },
  filtrate_flow: { references: [5, 10, 15], tolerance: 0.6, referenceInstrument: 'Clamp-on flow meter', certificateNo: 'DEMO-CAL-204' },
  temperature: { references: [5, 20], tolerance: 0.5, referenceInstrument: 'Reference thermometer', certificateNo: 'DEMO-CAL-077' },
  feed_turbidity: { references: [1, 10], tolerance: 0.5, referenceInstrument: 'Turbidity standards, 1 and 10 NTU', certificateNo: 'DEMO-CAL-311' },
};
const CHECK = 'Check zero and span';
const SIGNAL_OF_READING = { feedKpa: 'feed_pressure', filtrateKpa: 'filtrate_pressure', flowM3h: 'filtrate_flow', temperatureC: 'temperature' } as const;

/**
 * Instruments compared with references, one comparison for each entry of the service record. A reading that the plan has off by so much is found so: at the end
 * of that time the instrument is compared once more and set right.
 */
export function comparisonsOf({ until, positions, serviceEntries }: Pick<Scenario, 'until' | 'positions' | 'serviceEntries'>): ScenarioCalibration[] {
  const positionOf = new Map(positions.map((position) => [position.key, position]));
  const usual = serviceEntries.flatMap(({ positionKey, task, at, by }) => {
    const position = positionOf.get(positionKey ?? '');
    return position === undefined || task !== CHECK ? [] : comparisonOf(position, at, by, offAt(position, at, until), '');
  });
  const setRight = faultsOf().flatMap(({ skidKey, signal, toDaysAgo, by }) =>
    positions
      .filter((position) => position.skidKey === skidKey && position.signal === signal)
      .flatMap((position) => {
        const at = new Date(Math.floor((until.getTime() - toDaysAgo * DAY_MS) / DAY_MS) * DAY_MS + 10 * HOUR_MS);
        return comparisonOf(position, at, 'marit.dunnoway', by, 'Asked for because the readings did not agree with the gauge beside it');
      }),
  );
  return [...usual, ...setRight];
}

function faultsOf() {
  return SKIDS.flatMap(({ key: skidKey, faults = [] }) =>
    faults.flatMap(({ kind, reading, by = 0, ...stretch }) =>
      kind === 'offset' && reading in SIGNAL_OF_READING
        ? [{ skidKey, signal: SIGNAL_OF_READING[reading as keyof typeof SIGNAL_OF_READING], by, ...stretch }]
        : [],
    ),
  );
}

function offAt({ skidKey, signal }: ScenarioPosition, at: Date, until: Date): number {
  const fault = faultsOf().find(
    (one) => one.skidKey === skidKey && one.signal === signal && isWithin(at.getTime(), one, { fromMs: 0, untilMs: until.getTime() }),
  );
  return fault?.by ?? 0;
}

function comparisonOf({ key, signal }: ScenarioPosition, at: Date, by: string, off: number, note: string): ScenarioCalibration[] {
  const range = signal === null ? undefined : RANGES[signal];
  if (range === undefined) return [];
  const { references, tolerance, referenceInstrument, certificateNo } = range;
  const random = randomOf(`${key} ${at.toISOString()} comparison`);
  const near = (reference: number, error: number) => Math.round(100 * (reference + error + 0.15 * tolerance * random.normal())) / 100;
  const isOff = Math.abs(off) > tolerance;
  const points = references.map((reference) => ({ reference, asFound: near(reference, off), asLeft: isOff ? near(reference, 0) : null }));
  return [{ positionKey: key, at, by, tolerance, referenceInstrument, certificateNo, points, nextOn: dayText(at.getTime() + 365 * DAY_MS), note }];
}
