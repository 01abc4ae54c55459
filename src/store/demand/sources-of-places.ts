import { DAYS_AHEAD } from '../../outlook/core/horizon.js';
import { type Day, daysBetween } from '../../shared/day.js';
import type { DemandSources, FittedPart, PlannedNeed } from '../core/demand/types.js';
import { tankFills } from '../core/proposals/tank-fills.js';
import type { ItemFacts } from './store-facts.js';

/** What a cause of need is, for those who read it. */
export interface CauseOfNeed {
  readonly kind: 'due' | 'job' | 'coming work' | 'outlook' | 'tank';
  readonly text: string;
  readonly skidId: string | null;
}

export interface SourcesOfPlaces {
  readonly sources: DemandSources;
  /** By the cause that the reasons name */
  readonly causes: ReadonlyMap<string, CauseOfNeed>;
  /** Null: never, as far as is known */
  readonly idleMonths: number | null;
}

/** By how many days work of a kind comes later than its day, on average. Common practice. */
const SLIP_DAYS = { due: 7, 'coming work': 14, job: 7 } as const;
const SLIP_OF_VISIT = 3;

/** Need of an item over some places: their use, and the work at the sites that they supply. Reservations for work are taken off that work. */
export function sourcesOfPlaces(facts: ItemFacts, here: (placeId: string) => boolean, served: (siteId: string) => boolean, today: Day): SourcesOfPlaces {
  const causes = new Map<string, CauseOfNeed>();
  const named = (cause: CauseOfNeed) => {
    const key = String(causes.size);
    causes.set(key, cause);
    return key;
  };
  const kept = new Map<string, number>();
  for (const { jobId, visitId, quantity } of facts.reservations) {
    const key = jobId ?? visitId ?? '';
    kept.set(key, (kept.get(key) ?? 0) + quantity);
  }
  const take = (key: string | null, wanted: number) => {
    const there = Math.min(wanted, key === null ? 0 : (kept.get(key) ?? 0));
    if (key !== null && there > 0) kept.set(key, (kept.get(key) ?? 0) - there);
    return there;
  };
  const planned = facts.planned.flatMap((row): PlannedNeed[] => {
    if (!served(row.siteId)) return [];
    const quantity = Math.ceil(row.quantity - 1e-9);
    const ofJob = take(row.jobId, quantity);
    const reserved = ofJob + take(row.visitId, quantity - ofJob);
    const slipDays = row.promised ? 0 : row.visitId === null ? SLIP_DAYS[row.kind] : SLIP_OF_VISIT;
    return [{ cause: named({ kind: row.kind, text: row.text, skidId: row.skidId }), quantity, reserved, inDays: row.inDays, slipDays }];
  });
  const fitted = facts.fitted
    .filter(({ siteId }) => served(siteId))
    .map(({ text, skidId, siteId, quantity, ageDays, nextLifeDays, p10Days, p50Days, p90Days, metByDay }): FittedPart => {
      const stated = { p10Days, p50Days, p90Days, daysAhead: DAYS_AHEAD, metByDay };
      return { cause: named({ kind: 'outlook', text, skidId }), quantity: Math.ceil(quantity - 1e-9), water: siteId, ageDays, nextLifeDays, stated };
    });
  const months = facts.use.filter(({ placeId }) => here(placeId)).flatMap(({ months: each }) => each);
  return {
    sources: { use: monthsOfUse(months, facts.months), planned: [...planned, ...fillsOf(facts, served, today, named)], fitted },
    causes,
    idleMonths: months.reduce<number | null>((least, [monthsAgo, used]) => (used > 0 ? Math.min(least ?? monthsAgo, monthsAgo) : least), null),
  };
}

function fillsOf({ item, tanks }: ItemFacts, served: (siteId: string) => boolean, today: Day, named: (cause: CauseOfNeed) => string): PlannedNeed[] {
  return tanks.flatMap(({ tankName, siteId, dailyUseL, heelL, capacityL, runOutOn }) => {
    if (!served(siteId) || item.litres === null || runOutOn === null) return [];
    const asked = { dailyUseL, usableL: capacityL - heelL, runOutInDays: daysBetween(today, runOutOn), litresPerUnit: item.litres };
    return tankFills(asked).map(({ inDays, quantity }) => ({
      cause: named({ kind: 'tank', text: `${tankName} runs out`, skidId: null }),
      quantity,
      reserved: 0,
      inDays,
      slipDays: 0,
    }));
  });
}

/** Whole pieces, oldest first, without the running month. */
function monthsOfUse(rows: ItemFacts['use'][number]['months'], months: number): number[] {
  const use = new Float64Array(months);
  for (const [monthsAgo, , untold] of rows) {
    const at = months - monthsAgo;
    if (monthsAgo >= 1 && at >= 0) use[at] = (use[at] ?? 0) + untold;
  }
  return Array.from(use, (pieces) => Math.max(0, Math.round(pieces)));
}
