import { median } from 'd3-array';
import type { CycleFact } from '../../../intake/core/cycle-fact.js';

type Run = Pick<
  CycleFact,
  'startedAt' | 'filtrationMinutes' | 'filtrateM3' | 'flowM3h' | 'feedKpa' | 'filtrateKpa' | 'tmpKpa' | 'temperatureC' | 'cartridgeDpKpa'
>;

/** Something about an instrument that does not fit the others, with what it makes doubtful. */
export interface InstrumentDoubt {
  readonly about: 'stuck' | 'two measures differ' | 'drift' | 'unit' | 'zero';
  readonly signals: readonly string[];
  readonly since: Date;
  /** What is seen, with the figures, and what to look at */
  readonly text: string;
  readonly makesDoubtful: readonly string[];
}

const STUCK_RUNS = 20;
const RECENT_RUNS = 100;
const LEAST_RUNS = 20;
const DIFFERS_SHARE = 0.1;
const DIFFERS_KPA = 3;
const DRIFT_KPA = 3;

const SIGNALS = [
  { key: 'flowM3h', name: 'flow', unit: 'm3/h', feeds: ['permeability', 'filtrate', 'cartridge pressure drop'] },
  { key: 'feedKpa', name: 'feed pressure', unit: 'kPa', feeds: ['transmembrane pressure', 'permeability'] },
  { key: 'filtrateKpa', name: 'filtrate pressure', unit: 'kPa', feeds: ['transmembrane pressure', 'permeability'] },
  { key: 'tmpKpa', name: 'measured transmembrane pressure', unit: 'kPa', feeds: ['permeability'] },
  { key: 'temperatureC', name: 'temperature', unit: 'degC', feeds: ['permeability', 'cartridge pressure drop'] },
  { key: 'cartridgeDpKpa', name: 'cartridge pressure drop', unit: 'kPa', feeds: ['cartridge pressure drop'] },
] as const;

/** Factors between units that are mixed up. Definitions of the units. */
const FLOW_UNITS = [
  { factor: 1000 / 60, text: 'L/min taken for m3/h' },
  { factor: 4.402868, text: 'US gal/min taken for m3/h' },
  { factor: 1000, text: 'L/h taken for m3/h' },
] as const;

/**
 * Holds the instruments of a skid against each other over its latest runs, in order of time: values that stand still while others move; flow against measured volume; feed less filtrate pressure against the
 * measured transmembrane pressure, its constant part (a zero that is off) and its growth (drift); a cartridge that seems to push water; degrees Fahrenheit. What cannot be held against anything is not doubted.
 *
 * Source: limits by common practice (20 runs, 10 %, 3 kPa).
 *
 * @example crossChecks([]) // => []
 */
export function crossChecks(runs: readonly Run[]): InstrumentDoubt[] {
  const recent = runs.slice(-RECENT_RUNS);
  return [...stuck(runs), ...flowAgainstVolume(recent), ...pressures(runs), ...impossible(recent)];
}

function stuck(runs: readonly Run[]): InstrumentDoubt[] {
  return SIGNALS.flatMap(({ key, name, unit, feeds }): InstrumentDoubt[] => {
    const last = runs.at(-1)?.[key] ?? null;
    if (last === null) return [];
    let from = runs.length - 1;
    while (from > 0 && runs[from - 1]?.[key] === last) from -= 1;
    const still = runs.slice(from);
    const [first] = still;
    if (first === undefined || still.length < STUCK_RUNS || !othersMove(still, key)) return [];
    const text = `The ${name} has read ${last} ${unit} in each of the last ${still.length} runs while others moved: look at the transmitter and its wiring.`;
    return [{ about: 'stuck', signals: [name], since: first.startedAt, text, makesDoubtful: feeds }];
  });
}

function othersMove(runs: readonly Run[], but: string): boolean {
  return SIGNALS.some(({ key }) => key !== but && new Set(runs.flatMap((run) => run[key] ?? [])).size > runs.length / 4);
}

function flowAgainstVolume(runs: readonly Run[]): InstrumentDoubt[] {
  const both = runs.flatMap(({ flowM3h, filtrateM3, filtrationMinutes, startedAt }) =>
    flowM3h === null || filtrateM3 === null || !(flowM3h > 0) || !(filtrateM3 > 0) || !(filtrationMinutes > 0)
      ? []
      : [{ ratio: (flowM3h * filtrationMinutes) / 60 / filtrateM3, startedAt }],
  );
  const ratio = median(both, (one) => one.ratio);
  const [first] = both;
  if (ratio === undefined || first === undefined || both.length < LEAST_RUNS || Math.abs(Math.log(ratio)) <= Math.log(1 + DIFFERS_SHARE)) return [];
  const shared = { signals: ['flow', 'filtrate volume'], since: first.startedAt, makesDoubtful: ['permeability', 'filtrate', 'all that runs on filtrate'] };
  const unit = FLOW_UNITS.find(({ factor }) => Math.abs(ratio / factor - 1) < 0.1 || Math.abs(ratio * factor - 1) < 0.1);
  const seen = `Flow times time is ${ratio.toPrecision(3)} times the measured volume (${both.length} runs)`;
  if (unit !== undefined) return [{ about: 'unit', ...shared, text: `${seen}: that is the factor of ${unit.text}. Check the unit of the column.` }];
  return [{ about: 'two measures differ', ...shared, text: `${seen}: one of the two meters is wrong, or counts other water. Check both.` }];
}

function pressures(runs: readonly Run[]): InstrumentDoubt[] {
  const both = runs.flatMap(({ feedKpa, filtrateKpa, tmpKpa, startedAt }) =>
    feedKpa === null || filtrateKpa === null || tmpKpa === null ? [] : [{ off: feedKpa - filtrateKpa - tmpKpa, tmpKpa, startedAt }],
  );
  const [early, late] = [both.slice(0, RECENT_RUNS), both.slice(-RECENT_RUNS)];
  const [offThen, offNow] = [median(early, ({ off }) => off), median(late, ({ off }) => off)];
  const level = median(late, ({ tmpKpa }) => tmpKpa);
  if (offThen === undefined || offNow === undefined || level === undefined || both.length < LEAST_RUNS) return [];
  const shared = {
    signals: ['feed pressure', 'filtrate pressure', 'measured transmembrane pressure'],
    makesDoubtful: ['transmembrane pressure', 'permeability'],
  };
  if (both.length > 2 * RECENT_RUNS && Math.abs(offNow - offThen) > DRIFT_KPA && Math.abs(offNow - offThen) > DIFFERS_SHARE * level) {
    const text = `Feed less filtrate pressure and the measured transmembrane pressure have moved ${(offNow - offThen).toFixed(1)} kPa apart since the record began: one of them drifts. Calibrate all three.`;
    return [{ about: 'drift', ...shared, since: (early[0] as (typeof both)[number]).startedAt, text }];
  }
  if (Math.abs(offNow) <= DIFFERS_KPA || Math.abs(offNow) <= DIFFERS_SHARE * level) return [];
  const text = `Feed less filtrate pressure differs from the measured transmembrane pressure by ${offNow.toFixed(1)} kPa: check zero and height of the transmitters.`;
  return [{ about: 'zero', ...shared, since: (late[0] as (typeof both)[number]).startedAt, text }];
}

function impossible(runs: readonly Run[]): InstrumentDoubt[] {
  const [first] = runs;
  const dp = median(runs, ({ cartridgeDpKpa }) => cartridgeDpKpa ?? Number.NaN);
  const degrees = median(runs, ({ temperatureC }) => temperatureC ?? Number.NaN);
  if (first === undefined || runs.length < LEAST_RUNS) return [];
  const doubts: InstrumentDoubt[] = [];
  if (dp !== undefined && dp < -1) {
    const text = `The cartridge pressure drop is ${dp.toFixed(1)} kPa, below nought: its two sides are swapped, or its zero is off.`;
    doubts.push({ about: 'zero', signals: ['cartridge pressure drop'], since: first.startedAt, text, makesDoubtful: ['cartridge pressure drop'] });
  }
  if (degrees !== undefined && degrees > 45 && degrees < 100) {
    const text = `The temperature is ${degrees.toFixed(0)} degC; as degrees Fahrenheit it would be ${((degrees - 32) / 1.8).toFixed(0)} degC. Check the unit of the column.`;
    doubts.push({ about: 'unit', signals: ['temperature'], since: first.startedAt, text, makesDoubtful: ['permeability', 'cartridge pressure drop'] });
  }
  return doubts;
}
