import { normalCdf } from '../../outlook/core/normal.js';
import { fitCatalogue } from '../../store/core/demand/catalogue/fit-catalogue.js';
import { unplannedNeed } from '../../store/core/demand/catalogue/unplanned.js';
import { negativeBinomial } from '../../store/core/demand/pmf/negative-binomial.js';
import { bootstrap } from '../../store/core/demand/simple/bootstrap.js';
import { sba, tsb } from '../../store/core/demand/simple/croston.js';
import type { Pmf } from '../../store/core/demand/types.js';

/** Forecasts of all items made at the end of a month: the need of the `months` after it. */
type Forecaster = (histories: readonly (readonly number[])[], horizons: readonly number[]) => (item: number, months: number) => Pmf;

export interface Method {
  readonly name: string;
  /** Stock is never kept below this */
  readonly floor: number;
  readonly forecaster: Forecaster;
}

export const OURS = 'ours';

const each =
  (forecast: (history: readonly number[], months: number) => Pmf): Forecaster =>
  (histories) =>
  (item, months) =>
    forecast(histories[item] ?? [], months);

const withTsb = each((history, months) => spread(history, months * tsb(history, 0.1, 0.1, shareOf(history.slice(0, 12)))));

export const METHODS: readonly Method[] = [
  { name: 'SBA, normal', floor: 0, forecaster: each((history, months) => normalPmf(months * sba(history), months * varianceOfMonths(history))) },
  { name: 'SBA, negative binomial', floor: 0, forecaster: each((history, months) => spread(history, months * sba(history))) },
  { name: 'TSB, negative binomial', floor: 0, forecaster: withTsb },
  { name: 'TSB, negative binomial, at least 2', floor: 2, forecaster: withTsb },
  { name: 'bootstrap, all history', floor: 0, forecaster: each((history, months) => bootstrap(history, months)) },
  { name: 'bootstrap, 24 months', floor: 0, forecaster: each((history, months) => bootstrap(history, months, 24)) },
  {
    name: OURS,
    floor: 0,
    forecaster: (histories, horizons) => {
      const fit = fitCatalogue(histories, horizons);
      return (item, months) => unplannedNeed(histories[item] ?? [], months, fit);
    },
  },
];

const shareOf = (months: readonly number[]) => (months.length === 0 ? 0 : months.filter((need) => need > 0).length / months.length);
const meanOfMonths = (months: readonly number[]) => months.reduce((sum, need) => sum + need, 0) / Math.max(1, months.length);

function varianceOfMonths(months: readonly number[]): number {
  const mean = meanOfMonths(months);
  return months.reduce((sum, need) => sum + (need - mean) ** 2, 0) / Math.max(1, months.length - 1);
}

/** Negative binomial with the ratio of variance and mean that the history shows. */
function spread(history: readonly number[], mean: number): Pmf {
  const ofMonths = meanOfMonths(history);
  return negativeBinomial(mean, mean * Math.max(1, ofMonths > 0 ? varianceOfMonths(history) / ofMonths : 1));
}

/** A normal distribution cut to whole pieces: up to k is what lies below k + 1/2, and what lies below 0 counts as 0. */
function normalPmf(mean: number, variance: number): Pmf {
  const sd = Math.sqrt(variance);
  if (sd === 0) return Float64Array.of(1);
  const last = Math.max(1, Math.ceil(mean + 6 * sd));
  let before = 0;
  return Float64Array.from({ length: last + 1 }, (_, k) => {
    const upTo = k === last ? 1 : normalCdf((k + 0.5 - mean) / sd);
    const share = upTo - before;
    before = upTo;
    return share;
  });
}
