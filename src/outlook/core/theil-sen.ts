import { median } from 'd3-array';

/** A straight line through noisy points that single wrong points do not bend. */
export interface RobustLine {
  readonly slope: number;
  readonly intercept: number;
  /** Limits of the slope at the asked confidence */
  readonly low: number;
  readonly high: number;
  /** Kendall's S: pairs that rise less pairs that fall, its variance (ties in y allowed for), and the Mann-Kendall Z */
  readonly s: number;
  readonly varS: number;
  readonly z: number;
}

/**
 * Theil-Sen line: the median of the slopes of all pairs of points, the intercept median(y) - slope median(x), with Kendall's test of trend. Says how fast
 * a permeability falls without being misled by a bad day.
 *
 * Limits of the slope: the slopes of rank (N -+ z sqrt(var S)) / 2, interpolated between ranks (the lower counted from 1, the upper plus 1). Serial
 * correlation makes them too narrow; thin to daily or weekly medians. `null` where fewer than two points differ in x. The work grows with the square of
 * the number of points: callers thin to about 120.
 *
 * Source: Theil 1950, Sen 1968; limits after Gilbert, Statistical Methods for Environmental Pollution Monitoring (1987), as summarised in
 * public help pages; the interpolation is his.
 *
 * @example theilSen([[0, 1], [1, 3], [2, 5]]).slope // => 2
 */
export function theilSen(points: readonly (readonly [x: number, y: number])[], confidenceZ = 1.959963984540054): RobustLine | null {
  const [xs, ys] = [Float64Array.from(points, ([x]) => x), Float64Array.from(points, ([, y]) => y)];
  const found = new Float64Array((points.length * (points.length - 1)) / 2);
  let [pairs, s] = [0, 0];
  for (let i = 0; i < points.length; i++) {
    const [xi = 0, yi = 0] = [xs[i], ys[i]];
    for (let j = i + 1; j < points.length; j++) {
      const [xj = 0, yj = 0] = [xs[j], ys[j]];
      const slope = (yj - yi) / (xj - xi);
      if (xj === xi || Number.isNaN(slope)) continue;
      found[pairs] = slope;
      pairs += 1;
      s += Math.sign((yj - yi) * (xj - xi));
    }
  }
  // Typed numbers sort several times faster than a list with a comparison.
  const slopes = found.subarray(0, pairs).sort();
  const slope = pairs === 0 ? undefined : atRank(slopes, (pairs + 1) / 2);
  const middleX = median(xs);
  const middleY = median(ys);
  if (slope === undefined || middleX === undefined || middleY === undefined) return null;
  const varS = varianceOfS(ys);
  const reach = confidenceZ * Math.sqrt(varS);
  return {
    slope,
    intercept: middleY - slope * middleX,
    low: atRank(slopes, (slopes.length - reach) / 2),
    high: atRank(slopes, (slopes.length + reach) / 2 + 1),
    s,
    varS,
    z: varS === 0 ? 0 : (s - Math.sign(s)) / Math.sqrt(varS),
  };
}

function varianceOfS(values: Float64Array): number {
  const ties = new Map<number, number>();
  for (const value of values) ties.set(value, (ties.get(value) ?? 0) + 1);
  const term = (n: number) => n * (n - 1) * (2 * n + 5);
  return (term(values.length) - [...ties.values()].reduce((sum, tied) => sum + term(tied), 0)) / 18;
}

/** Value at a rank counted from 1, between ranks on the straight line, the ends beyond them. */
function atRank(sorted: Float64Array, rank: number): number {
  const place = Math.min(sorted.length - 1, Math.max(0, rank - 1));
  const below = Math.floor(place);
  const low = sorted[below] ?? 0;
  return low + (place - below) * ((sorted[below + 1] ?? low) - low);
}
