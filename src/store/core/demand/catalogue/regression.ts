import { FEATURES, SPREAD_FEATURES } from './features.js';
import { minimise } from './minimise.js';

/** One negative binomial regression of the need of the next months on what the months before looked like, for the whole catalogue. */
export interface Regression {
  readonly months: number;
  /** Of the features, to bring them to a common size */
  readonly centres: readonly number[];
  readonly scales: readonly number[];
  /** ln of the mean, and ln of (variance / mean - 1) */
  readonly ofMean: readonly number[];
  readonly ofSpread: readonly number[];
}

/** Items of the past with what they then went on to need. */
export interface TrainingRows {
  readonly features: readonly Float64Array[];
  readonly needed: readonly number[];
  readonly weights: readonly number[];
}

/** Drawn to 0 by this much, so that columns that say the same share what they say. */
const RIDGE = 2;

/**
 * Fits by weighted maximum likelihood: with m = exp(b x), k = exp(c x'), r = m/k,
 *   ln p(y) = ln G(y + r) - ln G(r) - ln y! - r ln(1 + k) + y (ln k - ln(1 + k)).
 * The coefficients are strongly correlated; only what they forecast together means something.
 */
export function fitRegression(months: number, rows: TrainingRows): Regression {
  const { centres, scales } = sizes(rows.features);
  const x = rows.features.map((row) => row.map((value, j) => (value - (centres[j] as number)) / (scales[j] as number)));
  const weight = rows.weights.reduce((sum, one) => sum + one, 0);
  const mean = rows.needed.reduce((sum, y, i) => sum + y * (rows.weights[i] as number), 0) / weight;
  const start = new Float64Array(FEATURES + SPREAD_FEATURES.length);
  start[0] = Math.log(Math.max(mean, 1e-3));
  const found = minimise((at, gradient) => loss(x, rows.needed, rows.weights, at, gradient), start);
  return { months, centres, scales, ofMean: [...found.subarray(0, FEATURES)], ofSpread: [...found.subarray(FEATURES)] };
}

/** Mean and variance ratio less 1 that a regression gives an item with these features. */
export function regressed(regression: Regression, features: Float64Array): { readonly mean: number; readonly excess: number } {
  const { centres, scales, ofMean, ofSpread } = regression;
  let logMean = 0;
  let logExcess = 0;
  for (let j = 0; j < FEATURES; j++) logMean += (ofMean[j] as number) * (((features[j] as number) - (centres[j] as number)) / (scales[j] as number));
  for (const [at, j] of SPREAD_FEATURES.entries()) {
    logExcess += (ofSpread[at] as number) * (((features[j] as number) - (centres[j] as number)) / (scales[j] as number));
  }
  return { mean: Math.exp(Math.min(logMean, 12)), excess: Math.exp(Math.min(logExcess, 8)) };
}

function loss(x: readonly Float64Array[], needed: readonly number[], weights: readonly number[], at: Float64Array, gradient: Float64Array): number {
  let value = 0;
  for (let i = 0; i < x.length; i++) {
    const row = x[i] as Float64Array;
    const y = needed[i] as number;
    const w = weights[i] as number;
    let logM = 0;
    let logK = 0;
    for (let j = 0; j < FEATURES; j++) logM += (at[j] as number) * (row[j] as number);
    for (let j = 0; j < SPREAD_FEATURES.length; j++) logK += (at[FEATURES + j] as number) * (row[SPREAD_FEATURES[j] as number] as number);
    logM = Math.min(logM, 12);
    logK = Math.max(-12, Math.min(logK, 8));
    const k = Math.exp(logK);
    const r = Math.exp(logM) / k;
    const log1k = Math.log1p(k);
    // ln G(y + r) - ln G(r) - ln y! and its derivative, as sums: most needs are 0, and few are large.
    let rise = 0;
    let slope = -log1k;
    for (let n = 0; n < y; n++) {
      rise += Math.log((r + n) / (n + 1));
      slope += 1 / (r + n);
    }
    value -= w * (rise - r * log1k + y * (logK - log1k));
    const byMean = w * r * slope;
    const bySpread = -byMean + w * ((y - r * k) / (1 + k));
    for (let j = 0; j < FEATURES; j++) gradient[j] = (gradient[j] as number) - byMean * (row[j] as number);
    for (let j = 0; j < SPREAD_FEATURES.length; j++) {
      gradient[FEATURES + j] = (gradient[FEATURES + j] as number) - bySpread * (row[SPREAD_FEATURES[j] as number] as number);
    }
  }
  for (let j = 0; j < at.length; j++) {
    if (j === 0 || j === FEATURES) continue;
    value += (RIDGE / 2) * (at[j] as number) ** 2;
    gradient[j] = (gradient[j] as number) + RIDGE * (at[j] as number);
  }
  return value;
}

function sizes(features: readonly Float64Array[]): { readonly centres: number[]; readonly scales: number[] } {
  const centres = Array.from({ length: FEATURES }, () => 0);
  const scales = Array.from({ length: FEATURES }, () => 1);
  for (let j = 1; j < FEATURES; j++) {
    const mean = features.reduce((sum, row) => sum + (row[j] as number), 0) / features.length;
    const variance = features.reduce((sum, row) => sum + ((row[j] as number) - mean) ** 2, 0) / features.length;
    centres[j] = mean;
    scales[j] = Math.max(1e-6, Math.sqrt(variance));
  }
  return { centres, scales };
}
