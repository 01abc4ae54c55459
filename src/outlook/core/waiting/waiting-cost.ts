import type { MetWithin } from '../days-to-limit.js';
import { HORIZON_DAYS } from '../horizon.js';
import { pressureEnergyKwh } from './pressure-energy.js';

/** What things cost, all in one currency; `null`: nobody said. */
export interface WaitingPrices {
  /** A new part, or a recovery clean */
  readonly renewal: number | null;
  /** What it costs more to act after the limit was met than at a time of one's own choice */
  readonly unplanned: number | null;
  readonly energyKwh: number | null;
  /** Of water that is not produced */
  readonly waterM3: number | null;
}

export interface WaitingFacts {
  readonly met: MetWithin;
  /** Days since the part was new, or the membranes clean */
  readonly ageDays: number;
  readonly prices: WaitingPrices;
  readonly dailyVolumeM3: number | null;
  /** Pressure above that of a new part, so many days ahead; `null`: not known */
  readonly excessKpa: ((dayAhead: number) => number) | null;
  /** Share of the production that is lost while the limit is passed; `null`: nobody said */
  readonly lostShare: number | null;
}

/** What acting so many days ahead costs, term by term; `extra` is beyond the cheapest day. */
export interface WaitingPoint {
  readonly dayAhead: number;
  readonly lifeThrownAway: number;
  readonly risk: number;
  readonly energy: number;
  readonly production: number;
  readonly extra: number;
}

export type WaitingCost =
  | { readonly kind: 'waiting'; readonly cheapestDay: number; readonly points: readonly WaitingPoint[]; readonly notCounted: readonly string[] }
  | { readonly kind: 'prices-missing'; readonly missing: readonly string[] };

/**
 * What it costs to act on a part on each day ahead (0 to 730), against the cheapest of them. Tells when a visit is worth while, and what it costs to shift it.
 *
 * A day of life costs g. Acting after t days throws away g E[max(0, T - t)] of it, where T is the day of the limit (as far as two years); the limit is met before with F(t), at the price of what comes unplanned; until then
 * pressure above that of a new part takes energy, and once the limit is passed a share of the production is lost. g is the lowest cost of a day over this life,
 * min over t of (renewal + unplanned F(t) + energy(t) + production(t)) / (age + E[min(T, t)]): the next part is taken to do as this one at its best. For a new part this is replacement at the age of least cost.
 *
 * `prices-missing` without the price of the renewal or of what comes unplanned, since then early and late cannot be weighed. Energy and production without a price are left out and named.
 *
 * Source: renewal reward and age replacement (Barlow and Proschan 1965, from memory), the specs check published optima.
 *
 * @example waitingCost({ met: () => 0, ageDays: 10, prices: { renewal: null, unplanned: 5, energyKwh: null, waterM3: null }, dailyVolumeM3: null, excessKpa: null, lostShare: null }) // => { "kind": "prices-missing", "missing": ["what the renewal costs"] }
 */
export function waitingCost(facts: WaitingFacts): WaitingCost {
  const { renewal, unplanned } = facts.prices;
  if (!(renewal !== null && renewal > 0) || !(unplanned !== null && unplanned > 0))
    return {
      kind: 'prices-missing',
      missing: [
        ...(renewal !== null && renewal > 0 ? [] : ['what the renewal costs']),
        ...(unplanned !== null && unplanned > 0 ? [] : ['what it costs more to come unplanned']),
      ],
    };
  const { days, notCounted } = courseOf(facts, unplanned);
  const spent = ({ risk, energy, production }: DayOfCourse) => renewal + risk + energy + production;
  const lived = ({ lifeDays }: DayOfCourse) => Math.max(0, facts.ageDays) + lifeDays;
  let rate = Number.POSITIVE_INFINITY;
  for (const day of days) if (lived(day) > 0) rate = Math.min(rate, spent(day) / lived(day));
  const perDay = Number.isFinite(rate) ? rate : 0;
  const lifeAhead = days.at(-1)?.lifeDays ?? 0;
  const totals = days.map((day) => ({ ...day, lifeThrownAway: perDay * (lifeAhead - day.lifeDays) }));
  const sumOf = ({ lifeThrownAway, risk, energy, production }: (typeof totals)[number]) => lifeThrownAway + risk + energy + production;
  let cheapestDay = 0;
  for (const [at, day] of totals.entries()) if (sumOf(day) < sumOf(totals[cheapestDay] ?? day) - 1e-9) cheapestDay = at;
  const least = sumOf(totals[cheapestDay] ?? { lifeThrownAway: 0, risk: 0, energy: 0, production: 0, lifeDays: 0 });
  const points = totals.map((day, dayAhead) => {
    const { lifeThrownAway, risk, energy, production } = day;
    return { dayAhead, lifeThrownAway, risk, energy, production, extra: Math.max(0, sumOf(day) - least) };
  });
  return { kind: 'waiting', cheapestDay, points, notCounted };
}

interface DayOfCourse {
  /** Days of life that are used until then, in the mean */
  readonly lifeDays: number;
  readonly risk: number;
  readonly energy: number;
  readonly production: number;
}

/** Day by day what has come together by then, and which terms nothing is known of. */
function courseOf({ met, prices, dailyVolumeM3, excessKpa, lostShare }: WaitingFacts, unplanned: number): { days: DayOfCourse[]; notCounted: string[] } {
  const energyOf =
    prices.energyKwh === null || excessKpa === null || dailyVolumeM3 === null ? null : { price: prices.energyKwh, excessKpa, volumeM3: dailyVolumeM3 };
  const lostADay = prices.waterM3 === null || lostShare === null || dailyVolumeM3 === null ? null : prices.waterM3 * lostShare * dailyVolumeM3;
  const days: DayOfCourse[] = [];
  let [lifeDays, energy, production, before] = [0, 0, 0, met(0)];
  for (let day = 0; day <= HORIZON_DAYS; day++) {
    const by = met(day);
    if (day > 0) {
      const passed = (before + by) / 2;
      lifeDays += 1 - passed;
      production += (lostADay ?? 0) * passed;
      if (energyOf !== null) energy += energyOf.price * pressureEnergyKwh({ volumeM3: energyOf.volumeM3, pressureKpa: energyOf.excessKpa(day - 0.5) });
    }
    days.push({ lifeDays, risk: unplanned * by, energy, production });
    before = by;
  }
  return { days, notCounted: [...(energyOf === null ? ['energy for higher pressure'] : []), ...(lostADay === null ? ['lost production'] : [])] };
}
