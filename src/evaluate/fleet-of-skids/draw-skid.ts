import { DAY_MS, dayText } from '../../../seed/generate/period.js';
import { baselines } from '../../condition/core/baseline.js';
import type { RecordOfSkid } from '../../outlook/core/skid/as-known-on.js';
import type { OutlookDay } from '../../outlook/core/skid/known-of-skid.js';
import type { SweptSkid, TrueRun } from '../handread/swept-skid.js';
import type { Draws } from '../installed-base/draws.js';
import { type DrawnRun, drawRuns, spentByDay } from './runs.js';

const LIMIT_SHARE = 0.7;
const CLOCK_HOUR = 12;
/** Values that a transmitter did not give */
const MISSING = 0.04;

/**
 * A skid with a record of days and a known truth. Nothing in it is drawn by the laws that forecasts assume: pressure drops climb by a power of what is spent or exponentially, each skid by its own; permeability bends
 * one way or the other; both scatter from day to day and wander from week to week; people renew at the limit or by the calendar. All numbers are assumptions.
 */
export function drawSkid(key: string, dirt: readonly number[], fromMs: number, draws: Draws): SweptSkid {
  const flowM3h = 15 + 65 * draws.next();
  const areaM2 = flowM3h * 16;
  const limitKpa = 100 + 50 * draws.next();
  const load = dailyLoad(dirt.length, flowM3h, draws);
  const solids = load.map((m3, day) => m3 * (dirt[day] ?? 1) ** 0.8);
  const fouling = load.map((m3, day) => m3 * (dirt[day] ?? 1) ** 0.25);
  const usual = flowM3h * 17;
  const [cartridgesEarly, cleansByCalendar] = [draws.next() < 0.2, draws.next() < 0.3];
  const cartridgeHabit = {
    usualLoad: usual * (40 + 100 * draws.next()),
    scatter: 0.18,
    renewedAt: () => (cartridgesEarly ? 0.55 + 0.2 * draws.next() : 1 + 0.03 * draws.next()),
  };
  const cleanHabit = {
    usualLoad: usual * (60 + 120 * draws.next()),
    scatter: 0.2,
    renewedAt: () => (cleansByCalendar ? 0.6 + 0.3 * draws.next() : 0.9 + 0.2 * draws.next()),
  };
  const sets = drawRuns(solids, cartridgeHabit, draws);
  const cleans = drawRuns(fouling, cleanHabit, draws);
  const dp = cartridgeValues(sets, solids, limitKpa, draws);
  const permeability = permeabilityValues(cleans, fouling, 150 + 150 * draws.next(), draws);
  const dayOf = (day: number) => dayText(fromMs + day * DAY_MS);
  const days = load.map((filtrateM3, day): OutlookDay => {
    const isSeen = filtrateM3 > 0 && draws.next() >= MISSING;
    return { day: dayOf(day), filtrateM3, permeability: isSeen ? (permeability[day] ?? null) : null, cartridgeDpKpa: isSeen ? (dp[day] ?? null) : null };
  });
  const itemId = `cartridge ${1 + draws.below(3)}`;
  const logged: RecordOfSkid = {
    days,
    cleans: cleans.slice(1).map(({ from }) => dayOf(from)),
    sets: sets.map(({ from, before, renewed }, index) => ({
      positionId: `${key} housing`,
      partId: `${key} set ${index}`,
      // The first set was there before the record, so that what it ran through is not known.
      fittedOn: dayOf(before > 0 ? -30 : from),
      removedOn: renewed === null ? null : dayOf(renewed),
      removalReason: renewed === null ? null : cartridgesEarly ? 'changed by the calendar' : 'pressure drop at the limit',
      itemId,
      setCount: Math.max(3, Math.round(flowM3h / 6)),
    })),
  };
  return {
    key,
    logged,
    facts: {
      scheme: 'dead-end',
      tmpFrom: 'pressures',
      timeZone: 'UTC',
      permeabilityLimitFraction: LIMIT_SHARE,
      cartridgeLimitKpa: limitKpa,
      areaM2,
      serviceState: 'in service',
      lastReadingAt: null,
      baselines: baselines({ days: [], cleans: [], commissioning: null, referenceC: 20 }),
      dailyLoadM3: null,
      dailyLoadSd: null,
    },
    runs: [...trueRuns(key, 'membranes', cleans, fromMs), ...trueRuns(key, `${key} housing`, sets, fromMs)],
  };
}

/** Filtrate by day: a season, a wander, and days on which the plant stands. */
function dailyLoad(days: number, flowM3h: number, draws: Draws): number[] {
  const [share, swing, peak] = [0.6 + 0.3 * draws.next(), 0.15 * draws.next(), 365 * draws.next()];
  let wander = 0;
  return Array.from({ length: days }, (_, day) => {
    wander = 0.9 * wander + 0.03 * draws.normal();
    const season = 1 + swing * Math.cos((2 * Math.PI * (day - peak)) / 365);
    return draws.next() < 0.01 ? 0 : Math.max(0, flowM3h * 20 * share * season * Math.exp(wander) * (1 + 0.05 * draws.normal()));
  });
}

function cartridgeValues(runs: readonly DrawnRun[], loads: readonly number[], limitKpa: number, draws: Draws): number[] {
  const cleanKpa = limitKpa * (0.12 + 0.12 * draws.next());
  const [power, steep] = [1.5 + 3 * draws.next(), 2 + 3 * draws.next()];
  const shape = draws.next() < 0.5 ? (u: number) => u ** power : (u: number) => Math.expm1(steep * u) / Math.expm1(steep);
  let wander = 0;
  return spentByDay(runs, loads).map(({ share }) => {
    wander = 0.8 * wander + 0.01 * draws.normal();
    return (cleanKpa + (limitKpa - cleanKpa) * shape(Math.min(1.3, share))) * (1 + wander + 0.015 * draws.normal());
  });
}

function permeabilityValues(runs: readonly DrawnRun[], loads: readonly number[], newLmhBar: number, draws: Draws): number[] {
  const bend = 0.7 + 0.9 * draws.next();
  const lossPerYear = 0.02 + 0.04 * draws.next();
  const regained = runs.map(() => 1 - 0.06 * draws.next());
  let wander = 0;
  return spentByDay(runs, loads).map(({ run, share }, day) => {
    wander = 0.93 * wander + 0.006 * draws.normal();
    const cleaned = newLmhBar * (1 - (lossPerYear * day) / 365) * (regained[run] ?? 1);
    return cleaned * LIMIT_SHARE ** (share ** bend) * Math.exp(wander + 0.01 * draws.normal());
  });
}

/** Runs that began within the record and whose limit lies within it. */
function trueRuns(key: string, subject: string, runs: readonly DrawnRun[], fromMs: number): TrueRun[] {
  const at = (day: number) => fromMs + day * DAY_MS;
  return runs.flatMap(({ from, before, renewed, met }) => {
    if (before > 0 || met === null) return [];
    const renewedMs = renewed === null ? null : at(renewed) + (CLOCK_HOUR * DAY_MS) / 24;
    return [{ subject, life: `${key} ${subject} ${from}`, fromMs: at(from) + (CLOCK_HOUR * DAY_MS) / 24, renewedMs, metMs: at(met) }];
  });
}
