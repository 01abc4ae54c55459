import { greatest, median, rollup } from 'd3-array';
import type { CycleFact } from '../../intake/core/cycle-fact.js';
import type { HandRow } from '../../intake/core/hand-row.js';
import { transmembraneKpa } from '../../intake/core/tmp.js';
import type { SignalCode } from '../../shared/signals.js';
import { assessCycle, type SkidBasis } from './assess-cycle.js';
import { type DailyCondition, dailyCondition } from './daily-condition.js';
import { DEFAULT_GATES } from './gates.js';
import { loadBetweenReadings } from './hand-load.js';
import { comparableRange, permeabilityRange, thirdOfCycle, tmpErrorKpa } from './hand-point.js';
import { localDays } from './local-day.js';

/** Daily condition of a plant that people read: each reading is one moment with its range, and the water between readings comes from totaliser or hours. */
export function handDays(readings: readonly HandRow[], basisOn: (day: string) => SkidBasis, timeZone: string): DailyCondition[] {
  const dayOf = localDays(timeZone);
  const cycleMinutes = usualCycleMinutes(readings);
  const thirds = readings.map(({ minutesSinceBackwash }) => thirdOfCycle(minutesSinceBackwash, cycleMinutes));
  const usualThird = commonest(thirds.filter((third) => third !== null));
  const days = new Map<string, DailyCondition>();
  for (const [index, reading] of readings.entries()) {
    const day = dayOf(reading.at.getTime()).day;
    const basis = basisOn(day);
    const cycle = toCycle(reading);
    const [condition] = dailyCondition([cycle], timeZone, () => assessCycle(cycle, basis, DEFAULT_GATES));
    if (condition === undefined) continue;
    const range = rangeOf(condition, reading, cycle, basis);
    const shown = range === null ? null : comparableRange(range, thirds[index] ?? null, usualThird);
    const { permeability } = condition;
    days.set(day, { ...condition, cycles: 0, permeability: permeability === null || shown === null ? null : { ...permeability, ...shown } });
  }
  const loads = readings.map(({ at, values, feedPumpHours }) => ({
    at,
    totalM3: values.filtrate_total?.value ?? null,
    runHours: feedPumpHours,
    flowM3h: values.filtrate_flow?.value ?? null,
  }));
  for (const { day, filtrateM3, filtrationHours, estimated } of loadBetweenReadings(loads, timeZone)) {
    const known = days.get(day) ?? emptyDay(day);
    days.set(day, { ...known, filtrateM3, filtrationHours: filtrationHours ?? 0, filtrateEstimated: estimated });
  }
  return [...days.values()].sort((a, b) => (a.day < b.day ? -1 : 1));
}

function commonest<T>(values: readonly T[]): T | null {
  const counts = rollup(
    values,
    (group) => group.length,
    (value) => value,
  );
  return greatest(counts, ([, count]) => count)?.[0] ?? null;
}

function toCycle({ at, values }: HandRow): CycleFact {
  const of = (signal: SignalCode): number | null => values[signal]?.value ?? null;
  const inlet = of('cartridge_inlet_pressure');
  const outlet = of('cartridge_outlet_pressure');
  return {
    startedAt: at,
    endedAt: at,
    filtrationMinutes: 0,
    filtrateM3: null,
    flowM3h: of('filtrate_flow'),
    feedKpa: of('feed_pressure'),
    filtrateKpa: of('filtrate_pressure'),
    concentrateKpa: of('concentrate_pressure'),
    tmpKpa: of('tmp'),
    tmpStartKpa: null,
    tmpEndKpa: null,
    temperatureC: of('temperature'),
    cartridgeDpKpa: of('cartridge_dp') ?? (inlet === null || outlet === null ? null : inlet - outlet),
    feedTurbidityNtu: of('feed_turbidity'),
    quality: 0,
    byHand: true,
  };
}

function rangeOf({ permeability }: DailyCondition, { values }: HandRow, cycle: CycleFact, basis: SkidBasis): { low: number; high: number } | null {
  const transmembrane = transmembraneKpa(cycle, basis);
  const { flowM3h, temperatureC } = cycle;
  if (permeability === null || transmembrane.kind === 'missing' || flowM3h === null || temperatureC === null) return null;
  const error = (signal: SignalCode): number => values[signal]?.error ?? 0;
  const tmpKpa = tmpErrorKpa(
    { feedKpa: error('feed_pressure'), filtrateKpa: error('filtrate_pressure'), concentrateKpa: error('concentrate_pressure'), tmpKpa: error('tmp') },
    basis,
  );
  const range = permeabilityRange(
    permeability.median,
    { flowM3h, tmpKpa: transmembrane.tmpKpa, temperatureC },
    { flowM3h: error('filtrate_flow'), tmpKpa, temperatureC: error('temperature') },
  );
  return 'kind' in range ? null : range;
}

/** From hour meter and backwash counter between readings; unknown where either is not read. */
function usualCycleMinutes(readings: readonly HandRow[]): number | null {
  const lengths = readings.slice(1).flatMap((reading, index) => {
    const before = readings[index];
    const count = (reading.values.backwash_count?.value ?? Number.NaN) - (before?.values.backwash_count?.value ?? Number.NaN);
    const hours = (reading.feedPumpHours ?? Number.NaN) - (before?.feedPumpHours ?? Number.NaN);
    return count > 0 && hours > 0 ? [(hours * 60) / count] : [];
  });
  return median(lengths) ?? null;
}

function emptyDay(day: string): DailyCondition {
  return {
    day,
    cycles: 0,
    filtrationHours: 0,
    filtrateM3: null,
    filtrateEstimated: false,
    permeability: null,
    permeabilityStart: null,
    fluxLmh: null,
    tmpKpa: null,
    temperatureC: null,
    cartridgeDpKpa: null,
    feedTurbidityNtu: null,
    leftOut: {},
    cartridgeLeftOut: {},
    byHand: true,
  };
}
