type Series = ArrayLike<number>;

/** Croston's smoothed size of a demand and interval between demands; null where nothing was ever needed. */
export interface SizeAndInterval {
  readonly size: number;
  readonly interval: number;
}

/**
 * Croston's method: size of demands and interval between them, each smoothed with `a` whenever something is needed,
 *   q <- q + a (y - q),   p <- p + a (interval - p),   need per period = q / p.
 * Begins with the first demand and the periods up to it. It never decays: what is no longer needed keeps its forecast.
 *
 * Source: Croston, Operational Research Quarterly 23 (1972), from memory; starting values as in the R package forecast.
 *
 * @example croston([0, 2, 0, 2], 0.1) // => { "size": 2, "interval": 2 }
 * @example croston([0, 0], 0.1) // => null
 */
export function croston(series: Series, a: number): SizeAndInterval | null {
  let size: number | null = null;
  let interval = 0;
  let since = 0;
  for (let t = 0; t < series.length; t++) {
    since += 1;
    const y = series[t] ?? 0;
    if (y <= 0) continue;
    if (size === null) [size, interval] = [y, since];
    else [size, interval] = [size + a * (y - size), interval + a * (since - interval)];
    since = 0;
  }
  return size === null ? null : { size, interval };
}

/**
 * Need per period by Croston's method with the correction of its bias by Syntetos and Boylan: q/p (1 - a/2). 0 where nothing was ever needed.
 *
 * Source: Syntetos and Boylan, International Journal of Forecasting 21 (2005), from memory.
 *
 * @example sba([0, 2, 0, 2], 0.1) // => 0.95
 */
export function sba(series: Series, a = 0.1): number {
  const found = croston(series, a);
  return found === null ? 0 : (found.size / found.interval) * (1 - a / 2);
}

/**
 * Need per period by the method of Teunter, Syntetos and Babai: the probability of a demand is smoothed with `b` every period, its size with `a` when there
 * is one; so it decays when demand stops. Begins with the share of periods with demand that is given, and the first demand's size. 0 where nothing was ever
 * needed.
 *
 * Source: Teunter, Syntetos and Babai, European Journal of Operational Research 214 (2011), from memory.
 *
 * @example tsb([0, 2], 0.1, 0.1, 0) // => 0.2
 */
export function tsb(series: Series, a: number, b: number, startShare: number): number {
  let size: number | null = null;
  let share = startShare;
  for (let t = 0; t < series.length; t++) {
    const y = series[t] ?? 0;
    share += b * ((y > 0 ? 1 : 0) - share);
    if (y > 0) size = size === null ? y : size + a * (y - size);
  }
  return size === null ? 0 : share * size;
}
