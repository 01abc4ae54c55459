import { type Day, dayInWords, dayPlus } from '../../shared/day.js';
import type { LimitForecast } from './outlook.js';

/**
 * The span of a forecast as the end of a sentence whose subject is the limit: the days between which it is met in 8 cases of 10. Days are rounded outward.
 *
 * @example whenInWords({ p10Days: 10, p90Days: 24 }, '2025-11-25') // => "is likely reached between 5 and 19 Dec"
 * @example whenInWords({ p10Days: null, p90Days: null }, '2025-11-25') // => "is unlikely to be reached within two years"
 */
export function whenInWords(forecast: Pick<LimitForecast, 'p10Days' | 'p90Days'>, originDay: Day): string {
  const { p10Days, p90Days } = forecast;
  if (p10Days === null) return 'is unlikely to be reached within two years';
  const first = dayPlus(originDay, Math.floor(p10Days));
  if (p90Days === null) return `is unlikely to be reached before ${dayInWords(first, originDay)} and may hold for more than two years`;
  const last = dayPlus(originDay, Math.ceil(p90Days));
  if (first === last) return `is likely reached on ${dayInWords(last, originDay)}`;
  const sameMonth = first.slice(0, 7) === last.slice(0, 7);
  return `is likely reached between ${sameMonth ? Number(first.slice(8)) : dayInWords(first, originDay)} and ${dayInWords(last, originDay)}`;
}
