import type { CycleFact } from '../../intake/core/cycle-fact.js';
import type { HandRow } from '../../intake/core/hand-row.js';
import { assessCycle, type CycleAssessment, type SkidBasis } from './assess-cycle.js';
import { type DailyCondition, dailyCondition } from './daily-condition.js';
import { DEFAULT_GATES, type Gates } from './gates.js';
import { Gathered } from './gathered.js';
import { handDays } from './hand-days.js';

/** What of a skid turns its readings into condition. */
export interface SkidAsBuilt {
  readonly scheme: 'dead-end' | 'cross-flow' | 'submerged' | null;
  readonly tmpFrom: 'pressures' | 'measured' | null;
  readonly feedHeightM: number;
  readonly filtrateHeightM: number;
  readonly concentrateHeightM: number;
  readonly referenceC: number;
  readonly ratedFlowM3h: number | null;
  readonly cartridgeReferenceFlowM3h: number | null;
  readonly baselineLmhBar: number | null;
  readonly commissionedOn: string | null;
  readonly timeZone: string;
  readonly areas: readonly { readonly fromDay: string; readonly areaM2: number }[];
}

/**
 * The days of a record, from the cycles that the plant logged and from what people read; a day that was logged needs no reading.
 *
 * @example daysOfRecord({ scheme: 'dead-end', tmpFrom: 'pressures', feedHeightM: 0, filtrateHeightM: 0, concentrateHeightM: 0, referenceC: 20, ratedFlowM3h: 20, cartridgeReferenceFlowM3h: null, baselineLmhBar: null, commissionedOn: null, timeZone: 'UTC', areas: [] }, [], []) // => []
 */
export function daysOfRecord(skid: SkidAsBuilt, cycles: readonly CycleFact[], readings: readonly HandRow[]): DailyCondition[] {
  const basisOn = basisByDay(skid);
  const gates = gatesFor(skid, cycles);
  let [basisDay, basis] = ['', basisOn('')];
  const assess = (cycle: CycleFact, day: string): CycleAssessment => {
    if (day !== basisDay) [basisDay, basis] = [day, basisOn(day)];
    return assessCycle(cycle, basis, gates);
  };
  return merge(dailyCondition(cycles, skid.timeZone, assess), handDays(readings, basisOn, skid.timeZone));
}

/** A run counts from half of the usual cycle of this plant on, and nothing is cleaner than new by more than a tenth. Common practice. */
function gatesFor({ baselineLmhBar }: SkidAsBuilt, cycles: readonly CycleFact[]): Gates {
  const minutes = new Gathered();
  for (const { filtrationMinutes } of cycles) minutes.add(filtrationMinutes);
  const usualMinutes = minutes.takeMedian();
  const [least, most] = DEFAULT_GATES.permeabilityLmhBar;
  return {
    ...DEFAULT_GATES,
    leastMinutes: Math.min(DEFAULT_GATES.leastMinutes, (usualMinutes ?? Number.POSITIVE_INFINITY) / 2),
    permeabilityLmhBar: [least, baselineLmhBar === null ? most : 1.1 * baselineLmhBar],
  };
}

/** A day that the plant logged itself needs no reading by hand. */
function merge(logged: readonly DailyCondition[], byHand: readonly DailyCondition[]): DailyCondition[] {
  const known = new Set(logged.map(({ day }) => day));
  return [...logged, ...byHand.filter(({ day }) => !known.has(day))].sort((a, b) => (a.day < b.day ? -1 : 1));
}

/** The skid as it was on a day: its active area changes when modules are isolated, and the past keeps its own. */
function basisByDay(row: SkidAsBuilt): (day: string) => SkidBasis {
  const base = {
    scheme: row.scheme ?? 'dead-end',
    tmpFrom: row.tmpFrom ?? 'pressures',
    feedHeightM: row.feedHeightM,
    filtrateHeightM: row.filtrateHeightM,
    concentrateHeightM: row.concentrateHeightM,
    referenceC: row.referenceC,
    ratedFlowM3h: row.ratedFlowM3h,
    cartridgeReferenceFlowM3h: row.cartridgeReferenceFlowM3h,
  };
  const bases = row.areas.map(({ fromDay, areaM2 }) => ({ fromDay, basis: { ...base, areaM2 } }));
  const first = bases[0]?.basis ?? { ...base, areaM2: 0 };
  return (day) => bases.findLast(({ fromDay }) => fromDay <= day)?.basis ?? first;
}
