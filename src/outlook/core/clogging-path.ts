import { daysUntil, type MetWithin } from './days-to-limit.js';
import type { PathPoint } from './outlook.js';

/** Where a clogging part stands: what it has run, its value when clean and now, its limit. */
interface Standing {
  readonly load: number;
  readonly clean: number;
  readonly now: number;
  readonly limit: number;
}

/** Quantiles later than ten horizons count as this, for drawing only */
const LATEST_DAYS = 7300;
/** A part is changed at its limit; what a curve does far above it says nothing */
const HIGHEST = 1.2;
const LEAST_LEVEL = 0.005;

/**
 * The course of the pressure drop that goes with a forecast: three curves from the present value, each a power of the load, which cross the limit on the
 * early, middle and late day of the forecast, so that the drawing and the dates agree. Drawn up to 1.2 times the limit.
 *
 * value(d) = clean + (limit - clean) (load(d) / load at the limit) ^ exponent, through the present value.
 *
 * @example cloggingPath([0], (days) => Math.min(1, days / 100), 10, { load: 500, clean: 30, now: 60, limit: 150 }) // => [{ "dayAhead": 0, "low": 60, "mid": 60, "high": 60 }]
 */
export function cloggingPath(days: readonly number[], met: MetWithin, dailyMean: number, at: Standing): PathPoint[] {
  const { load, clean, now, limit } = at;
  const level = Math.max(LEAST_LEVEL, (now - clean) / (limit - clean));
  const curve = (probability: number) => {
    const loadAtLimit = load + dailyMean * (daysUntil(met, probability, LATEST_DAYS) ?? LATEST_DAYS);
    const exponent = Math.log(level) / Math.log(load / loadAtLimit);
    return (day: number) => Math.min(HIGHEST * limit, now + (limit - clean) * level * (((load + dailyMean * day) / load) ** exponent - 1));
  };
  const [early, middle, late] = [curve(0.1), curve(0.5), curve(0.9)];
  return days.map((dayAhead) => ({ dayAhead, low: late(dayAhead), mid: middle(dayAhead), high: early(dayAhead) }));
}
