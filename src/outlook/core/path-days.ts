import { HORIZON_DAYS } from './horizon.js';
import type { LimitForecast } from './outlook.js';

const POINTS = 24;
const SHORTEST = 7;

/**
 * The days ahead at which the path of a forecast is drawn: from today to a little beyond the late end of its span, about 25 of them, whole and rising.
 *
 * @example pathDays({ p50Days: 3, p90Days: 4 }) // => [0, 1, 2, 3, 4, 5, 6, 7]
 */
export function pathDays(forecast: Pick<LimitForecast, 'p50Days' | 'p90Days'>): number[] {
  const late = forecast.p90Days ?? (forecast.p50Days === null ? HORIZON_DAYS : 2 * forecast.p50Days);
  const last = Math.min(HORIZON_DAYS, Math.max(SHORTEST, Math.ceil(1.1 * late)));
  return [...new Set(Array.from({ length: POINTS + 1 }, (_, i) => Math.round((i * last) / POINTS)))];
}
