import { median } from 'd3-array';

/** One case: what speaks for it, what came, how much it counts. */
export interface RidgeCase {
  readonly features: readonly number[];
  readonly target: number;
  readonly weight: number;
}

const ROUNDS = 15;
/** Cases that are off by less than this share of the usual error count alike. */
const NEAR = 0.3;
const LEAST = 1e-12;

/**
 * Linear weights of features by the least absolute error, drawn towards `usual`, which counts as `strength` cases: with no case at all they are the usual ones.
 *
 * sum over cases of weight |target - w . features|, by iteratively reweighted squares, plus strength x sum of (spread of the feature x (w - usual))^2 over the usual error.
 *
 * Source: ridge regression and iteratively reweighted least squares, standard forms, from memory.
 *
 * @example robustRidge([], [0.5, 0], 3) // => [0.5, 0]
 */
export function robustRidge(cases: readonly RidgeCase[], usual: readonly number[], strength: number): readonly number[] {
  const total = cases.reduce((sum, { weight }) => sum + weight, 0);
  if (!(total > 0)) return usual;
  const spreads = usual.map((_, i) => cases.reduce((sum, { features, weight }) => sum + weight * (features[i] ?? 0) ** 2, 0) / total);
  let weights = usual;
  for (let round = 0; round < ROUNDS; round++) {
    const errors = cases.map(({ features, target }) => Math.abs(target - dot(weights, features)));
    const scale = Math.max(LEAST, median(errors) ?? LEAST);
    const matrix = usual.map((_, i) => usual.map((__, j) => (i === j ? strength * (spreads[i] ?? 0) + LEAST : 0)));
    const right = usual.map((value, i) => (strength * (spreads[i] ?? 0) + LEAST) * value);
    for (const [k, { features, target, weight }] of cases.entries()) {
      const trust = weight / Math.max((errors[k] ?? 0) / scale, NEAR);
      for (let i = 0; i < features.length; i++) {
        const part = trust * (features[i] ?? 0);
        if (part === 0) continue;
        const row = matrix[i] as number[];
        for (let j = 0; j < features.length; j++) row[j] = (row[j] ?? 0) + part * (features[j] ?? 0);
        right[i] = (right[i] ?? 0) + part * target;
      }
    }
    weights = solved(matrix, right);
  }
  return weights;
}

export const dot = (weights: readonly number[], features: readonly number[]): number =>
  weights.reduce((sum, weight, i) => sum + weight * (features[i] ?? 0), 0);

/** Solution of a symmetric positive definite system by elimination: no pivots are needed. */
function solved(matrix: readonly (readonly number[])[], right: readonly number[]): number[] {
  const rows = matrix.map((row, i) => [...row, right[i] ?? 0]);
  for (const [i, pivot] of rows.entries()) {
    for (const row of rows.slice(i + 1)) {
      const share = (row[i] ?? 0) / (pivot[i] ?? 1);
      for (const [j, value] of pivot.entries()) row[j] = (row[j] ?? 0) - share * value;
    }
  }
  const solution = rows.map(() => 0);
  for (const [i, row] of [...rows.entries()].reverse()) {
    const known = solution.reduce((sum, value, j) => sum + (j > i ? value * (row[j] ?? 0) : 0), 0);
    solution[i] = ((row.at(-1) ?? 0) - known) / (row[i] ?? 1);
  }
  return solution;
}
