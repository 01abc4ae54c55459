import { fittedNeed } from '../../store/core/demand/outlooks/fitted-need.js';
import { learnRecord } from '../../store/core/demand/outlooks/learn-record.js';
import { convolve, mixed } from '../../store/core/demand/pmf/convolve.js';
import { negativeBinomial, poisson } from '../../store/core/demand/pmf/negative-binomial.js';
import { poissonBinomial } from '../../store/core/demand/pmf/poisson-binomial.js';
import { tsb } from '../../store/core/demand/simple/croston.js';
import type { OutlookRecord, Pmf } from '../../store/core/demand/types.js';
import { DAYS, type Fleet, ITEMS, SCORED_FROM } from './fleet.js';
import { WEEK } from './keep-fleet.js';
import { fittedPart, pastOutlooks, type Told } from './outlooks.js';

/** Of one item: over a lead time, and over lead time and review. */
interface ProtectedNeed {
  readonly overLead: Pmf;
  readonly overBoth: Pmf;
}

/** The need until an order of the next review has come, by week and item. */
export type Needs = readonly (readonly ProtectedNeed[])[];

const LEADS = [24, 30, 36, 41, 47, 53];
const MEAN_LEAD = 38.5;
const PERIOD = 28;
const WEEKS = Math.ceil(DAYS / WEEK);
const CARTRIDGES = 6;

/** `review` is 0 or a week: the need over a lead time alone, and with the review. */
const eachWeek = (need: (week: number, item: number, review: number) => Pmf): Needs =>
  Array.from({ length: WEEKS }, (_, week) =>
    Array.from({ length: ITEMS }, (__, item) => {
      const from = Math.max(week, Math.floor(SCORED_FROM / WEEK) - 9);
      return { overLead: need(from, item, 0), overBoth: need(from, item, WEEK) };
    }),
  );

export function daily(fleet: Fleet): Float64Array[] {
  const need = Array.from({ length: ITEMS }, () => new Float64Array(DAYS));
  for (const { day, items } of fleet.visits) {
    for (const item of items) {
      const ofItem = need[item];
      if (ofItem !== undefined) ofItem[day] = (ofItem[day] ?? 0) + 1;
    }
  }
  return need;
}

/** TSB on totals of 28 days with a negative binomial distribution. */
export function byTsb(need: readonly Float64Array[]): Needs {
  return eachWeek((week, item, review) => {
    const totals = totalsOf(need[item] ?? new Float64Array(), week * WEEK, PERIOD, PERIOD);
    const mean = totals.reduce((sum, one) => sum + one, 0) / Math.max(1, totals.length);
    const variance = totals.reduce((sum, one) => sum + (one - mean) ** 2, 0) / Math.max(1, totals.length - 1);
    const ahead = (tsb(totals, 0.1, 0.2, 0.5) * (MEAN_LEAD + review)) / PERIOD;
    return negativeBinomial(ahead, ahead * Math.max(1, mean > 0 ? variance / mean : 1));
  });
}

/** What every span of the last two years would have needed, lead times as they are drawn. */
export function byWindows(need: readonly Float64Array[]): Needs {
  return eachWeek((week, item, review) => {
    const windows = LEADS.map((lead) => {
      const totals = totalsOf((need[item] ?? new Float64Array()).subarray(Math.max(0, week * WEEK - 730)), Math.min(730, week * WEEK), lead + review, 3);
      const pmf = new Float64Array(Math.max(0, ...totals) + 1);
      for (const total of totals) pmf[total] = (pmf[total] ?? 0) + 1 / totals.length;
      return pmf;
    });
    return mixed(
      windows,
      LEADS.map(() => 1),
    );
  });
}

function totalsOf(need: Float64Array, end: number, span: number, step: number): number[] {
  const totals: number[] = [];
  for (let from = end - span; from >= 0; from -= step) totals.push(need.subarray(from, from + span).reduce((sum, one) => sum + one, 0));
  return totals.reverse();
}

/** Outlooks as they are, corrected by the record of those that went before; kits by their planned days; failures by their rate so far. */
export function byCondition(fleet: Fleet, weeks: readonly Told[][], error: number, need: readonly Float64Array[]): Needs {
  const records = new Map<number, OutlookRecord>();
  const recordAt = (week: number) => {
    const half = Math.max(1, Math.floor(week / 26));
    const known = records.get(half) ?? learnRecord(pastOutlooks(weeks, Math.min(DAYS, half * 26 * WEEK)));
    records.set(half, known);
    return known;
  };
  return eachWeek((week, item, review) => {
    const today = week * WEEK;
    const parts = (weeks[week] ?? []).filter(({ life }) => life.item === item).map((told) => fittedPart(told, error));
    const rate = (need[item] ?? new Float64Array()).subarray(0, today).reduce((sum, one) => sum + one, 0.5) / Math.max(1, today);
    const spans = LEADS.map((lead) => {
      const days = lead + review;
      if (item < CARTRIDGES) return fittedNeed(parts, days, recordAt(week));
      if (item > CARTRIDGES) return poisson(rate * days);
      return kitsWithin(fleet, today, days);
    });
    return mixed(
      spans,
      LEADS.map(() => 1),
    );
  });
}

/** Planned kits not done yet: certain by their day, but for the one in five that slips by up to two weeks. */
function kitsWithin({ kits }: Fleet, today: number, days: number): Pmf {
  const open = kits.filter(({ planned, done }) => planned <= today + days && done > today);
  return convolve(poissonBinomial(open.map(({ planned }) => (planned <= today ? 1 : 0.8 + 0.2 * Math.min(1, (today + days - planned) / 14)))), [1]);
}
