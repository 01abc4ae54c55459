import type { Trend } from '../../shared/trend.js';
import { DAY_MS } from '../../shared/trend-series.js';
import { number, wallDay } from '../format.js';
import { words } from '../words.js';

/** What a trend says of one day, in words: measured, forecast, or nothing. */
export function readPoint(trend: Trend, atMs: number, unit: string, digits: number): string {
  const index = Math.round((atMs - trend.firstDayMs) / DAY_MS);
  const date = wallDay(trend.firstDayMs + index * DAY_MS);
  const value = trend.values[index];
  if (index < trend.values.length) return value == null ? words.trend.noValue(date) : words.trend.measured(date, `${number(value, digits)} ${unit}`);
  const next = trend.forecast.findIndex((point) => point.atMs >= atMs);
  const [before, after] = [trend.forecast[next - 1] ?? trend.forecast[next], trend.forecast[next]];
  if (before === undefined || after === undefined) return words.trend.noForecast(date);
  const share = after.atMs === before.atMs ? 0 : (atMs - before.atMs) / (after.atMs - before.atMs);
  const between = (of: 'low' | 'mid' | 'high') => number(before[of] + (after[of] - before[of]) * share, digits);
  return words.trend.forecast(date, `${between('mid')} ${unit}`, between('low'), between('high'));
}
