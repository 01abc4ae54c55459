import { mean, median, sum } from 'd3-array';

/** What a simple method sees: times and values until now, and the limit. */
export interface Prefix {
  readonly time: readonly number[];
  readonly value: readonly number[];
  readonly limit: number;
  readonly now: number;
}

/** Time that is left, from a curve through what was seen; infinite where the curve never meets the limit. */
export type Curve = (prefix: Prefix) => number;

/** Simple curves that are put through a record and followed to its limit. */
export const CURVES: Readonly<Record<string, Curve>> = {
  'straight line': straightLine,
  'straight line, last half': (prefix) => straightLine(lastHalf(prefix)),
  quadratic,
  'exponential with offset': exponential,
  'log-linear Theil-Sen': logLinear,
  'log-linear Theil-Sen, last half': (prefix) => logLinear(lastHalf(prefix)),
};

function lastHalf({ time, value, limit, now }: Prefix): Prefix {
  const from = time.findIndex((at) => at >= now / 2);
  return { time: time.slice(from), value: value.slice(from), limit, now };
}

function straightLine({ time, value, limit, now }: Prefix): number {
  const [middle, level] = [mean(time) ?? 0, mean(value) ?? 0];
  const slope = sum(time, (at, i) => (at - middle) * ((value[i] ?? 0) - level)) / sum(time, (at) => (at - middle) ** 2);
  return slope > 0 ? Math.max(0, middle + (limit - level) / slope - now) : Number.POSITIVE_INFINITY;
}

/** Least-squares parabola, followed to twenty times the time so far. */
function quadratic({ time, value, limit, now }: Prefix): number {
  const scaled = time.map((at) => at / now);
  const power = (k: number) => sum(scaled, (at) => at ** k);
  const moment = (k: number) => sum(scaled, (at, i) => at ** k * (value[i] ?? 0));
  const [s0, s1, s2, s3, s4] = [0, 1, 2, 3, 4].map(power) as [number, number, number, number, number];
  const [m0, m1, m2] = [0, 1, 2].map(moment) as [number, number, number];
  const det = s0 * (s2 * s4 - s3 * s3) - s1 * (s1 * s4 - s3 * s2) + s2 * (s1 * s3 - s2 * s2);
  const a = (m0 * (s2 * s4 - s3 * s3) - s1 * (m1 * s4 - s3 * m2) + s2 * (m1 * s3 - s2 * m2)) / det;
  const b = (s0 * (m1 * s4 - m2 * s3) - m0 * (s1 * s4 - s3 * s2) + s2 * (s1 * m2 - m1 * s2)) / det;
  const c = (s0 * (s2 * m2 - s3 * m1) - s1 * (s1 * m2 - m1 * s2) + m0 * (s1 * s3 - s2 * s2)) / det;
  const root = b * b - 4 * c * (a - limit);
  const roots = root < 0 ? [] : [1, -1].map((sign) => (-b + sign * Math.sqrt(root)) / (2 * c));
  const first = Math.min(...roots.filter((at) => at >= 1 && at <= 20));
  return Number.isFinite(first) ? (first - 1) * now : Number.POSITIVE_INFINITY;
}

/** a + b (exp(c t) - 1) by least squares: c from a list, a and b exactly, b not falling. */
function exponential({ time, value, limit, now }: Prefix): number {
  let best = { error: Number.POSITIVE_INFINITY, left: Number.POSITIVE_INFINITY };
  for (let c = 0.01; c <= 30; c *= 1.05) {
    const grown = time.map((at) => Math.expm1((c * at) / now));
    const [middle, level] = [mean(grown) ?? 0, mean(value) ?? 0];
    const slope = Math.max(0, sum(grown, (x, i) => (x - middle) * ((value[i] ?? 0) - level)) / sum(grown, (x) => (x - middle) ** 2));
    const error = sum(grown, (x, i) => ((value[i] ?? 0) - level - slope * (x - middle)) ** 2);
    if (error >= best.error) continue;
    const at = Math.log1p((limit - level) / slope + middle) / c;
    best = { error, left: slope > 0 && at > 0 ? Math.max(0, (at - 1) * now) : Number.POSITIVE_INFINITY };
  }
  return best.left;
}

function logLinear({ time, value, limit, now }: Prefix): number {
  const points = time.flatMap((at, i) => ((value[i] ?? 0) > 0 ? [[at, Math.log(value[i] ?? 1)] as const] : []));
  if (points.length < 5) return Number.POSITIVE_INFINITY;
  const slopes = points.flatMap(([t, y], i) => points.slice(i + 1).map(([t2, y2]) => (y2 - y) / (t2 - t)));
  const slope = median(slopes) ?? 0;
  const start = (median(points, ([, y]) => y) ?? 0) - slope * (median(points, ([t]) => t) ?? 0);
  return slope > 0 ? Math.max(0, (Math.log(limit) - start) / slope - now) : Number.POSITIVE_INFINITY;
}
