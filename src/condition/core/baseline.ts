import { median, quantile } from 'd3-array';
import { type Day, dayPlus } from '../../shared/day.js';
import type { DailyCondition } from './daily-condition.js';
import { temperatureCorrection } from './temperature-correction.js';

/** A chemical clean: maintenance clean (CEB) or recovery clean (CIP), by its local day, YYYY-MM-DD. */
export interface CleanDay {
  readonly kind: 'CEB' | 'CIP';
  readonly day: Day;
}

/** What a permeability is compared with. `assumed`: no measured value of the new or cleaned membrane, so the best of the record serves. */
export interface Baseline {
  readonly kind: 'baseline';
  readonly permeabilityLmhBar: number;
  readonly referenceC: number;
  readonly from: 'commissioning' | 'last CIP' | 'last CEB' | 'first 30 days' | 'after last CIP';
  readonly assumed: boolean;
  /** YYYY-MM-DD: the day measured, or the first of the days it was made from */
  readonly day: Day;
}

type BaselineResult = Baseline | { readonly kind: 'too-little-data'; readonly have: number; readonly need: number };

export interface Baselines {
  /** The new membrane, or the best that stands in for it: what its age is measured against */
  readonly commissioning: BaselineResult;
  /** What a recovery clean gave back: triggers the next one */
  readonly lastCip: BaselineResult;
  /** What the latest chemical clean of either kind gave back */
  readonly lastCeb: BaselineResult;
}

export interface BaselineInput {
  /** In order of day; of the modules that are fitted now, since a replacement begins a new record */
  readonly days: readonly Pick<DailyCondition, 'day' | 'permeability'>[];
  readonly cleans: readonly CleanDay[];
  readonly commissioning: { readonly day: string; readonly permeabilityLmhBar: number; readonly referenceC: number } | null;
  /** The reference of the daily values, to which the baselines are brought */
  readonly referenceC: number;
}

const ASSUMED_WINDOW_DAYS = 30;
const ASSUMED_LEAST_DAYS = 7;
const ASSUMED_QUANTILE = 0.9;
const AFTER_CLEAN_DAYS = 3;
const AFTER_CLEAN_WITHIN_DAYS = 7;

/**
 * Baselines of permeability. Three of them, because each answers another question: how far from new, how far since the last recovery clean, how far since
 * the last chemical clean.
 *
 * Commissioning: the value where one was recorded, brought to the reference of the record. Else assumed: the 90th percentile of the daily medians of the 30
 * days after the last recovery clean, or of the first 30 days where there was none; at least 7 such days. A percentile of one fixed window, because a running
 * maximum climbs with every outlier and never comes down.
 * Last CIP: median of the first three days with a value within a week after the latest recovery clean that has such a day; the day of the clean itself
 * mixes before and after and is not used. Before the first recovery clean: the baseline of commissioning.
 * Last CEB: the same after the latest chemical clean of either kind, up to and with the day of the next CEB; before the first: the last-CIP baseline.
 *
 * Source: three baselines, and windows of 30 and 7 days, by common practice.
 *
 * @example baselines({ days: [], cleans: [], commissioning: null, referenceC: 20 }).lastCip // => { "kind": "too-little-data", "have": 0, "need": 7 }
 */
export function baselines(input: BaselineInput): Baselines {
  const values = input.days.flatMap(({ day, permeability }) => (permeability ? [{ day, value: permeability.median }] : []));
  const cips = input.cleans.filter((clean) => clean.kind === 'CIP');
  const commissioning = ofCommissioning(values, cips, input);
  const lastCip = afterClean(values, cips, input.referenceC) ?? commissioning;
  return { commissioning, lastCip, lastCeb: afterClean(values, input.cleans, input.referenceC) ?? lastCip };
}

interface DayValue {
  readonly day: Day;
  readonly value: number;
}

function ofCommissioning(values: readonly DayValue[], cips: readonly CleanDay[], { commissioning, referenceC }: BaselineInput): BaselineResult {
  if (commissioning) {
    const permeabilityLmhBar = commissioning.permeabilityLmhBar * temperatureCorrection(commissioning.referenceC, referenceC);
    return { kind: 'baseline', permeabilityLmhBar, referenceC, from: 'commissioning', assumed: false, day: commissioning.day };
  }
  const lastCip = latestFirst(cips)[0];
  const afterCip = lastCip ? bestOf(within(values, dayPlus(lastCip.day, 1), ASSUMED_WINDOW_DAYS), 'after last CIP', referenceC) : null;
  if (afterCip?.kind === 'baseline') return afterCip;
  const first = values[0];
  return bestOf(first ? within(values, first.day, ASSUMED_WINDOW_DAYS) : [], 'first 30 days', referenceC);
}

function bestOf(values: readonly DayValue[], from: 'first 30 days' | 'after last CIP', referenceC: number): BaselineResult {
  const best = quantile(
    values.map(({ value }) => value),
    ASSUMED_QUANTILE,
  );
  const first = values[0];
  if (best === undefined || !first || values.length < ASSUMED_LEAST_DAYS) return { kind: 'too-little-data', have: values.length, need: ASSUMED_LEAST_DAYS };
  return { kind: 'baseline', permeabilityLmhBar: best, referenceC, from, assumed: true, day: first.day };
}

function afterClean(values: readonly DayValue[], cleans: readonly CleanDay[], referenceC: number): Baseline | null {
  let next: CleanDay | null = null;
  for (const clean of latestFirst(cleans)) {
    const after = within(values, dayPlus(clean.day, 1), AFTER_CLEAN_WITHIN_DAYS)
      .filter((one) => isBefore(one.day, next))
      .slice(0, AFTER_CLEAN_DAYS);
    const value = median(after, (one) => one.value);
    if (value !== undefined && after[0]) {
      return { kind: 'baseline', permeabilityLmhBar: value, referenceC, from: `last ${clean.kind}`, assumed: false, day: after[0].day };
    }
    next = clean;
  }
  return null;
}

/** The day of the next maintenance clean still counts: where one is made every day there is no other. That of a recovery clean changes too much. */
function isBefore(day: Day, next: CleanDay | null): boolean {
  return next === null || day < next.day || (day === next.day && next.kind === 'CEB');
}

/** A recovery clean comes before a maintenance clean of its day: it is the one that shows. */
function latestFirst(cleans: readonly CleanDay[]): CleanDay[] {
  const rank = (clean: CleanDay) => `${clean.day} ${clean.kind}`;
  return [...cleans].sort((a, b) => (rank(a) < rank(b) ? 1 : -1));
}

function within(values: readonly DayValue[], fromDay: Day, days: number): DayValue[] {
  const endDay = dayPlus(fromDay, days);
  return values.filter(({ day }) => day >= fromDay && day < endDay);
}
