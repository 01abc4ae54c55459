import { day, number } from './format.js';
import type { TrendSeries } from './trend-series.js';
import { sharedWords } from './words.js';

const words = sharedWords.trend;

/** What a trend says, in one sentence: when the limit is expected to be met, or why nobody can say. The limit is in the unit of the reader. */
export function trendSentence({ outlook, limitLabel, values }: TrendSeries, limit: number | null, unit: string, digits: number): string {
  if (values.every((value) => value === null)) return words.nothing;
  if (outlook === null) return words.noOutlook;
  if (outlook.kind !== 'outlook') return outlook.reason;
  const named = `${limitLabel.toLowerCase()} ${words.of} ${number(limit, digits)} ${unit}`;
  const { p10On, p50On, p90On } = outlook;
  if (p10On === null) return words.never(named);
  if (p50On === null) return words.hardly(named, day(p10On));
  return p90On === null ? words.crossingOpen(named, day(p50On), day(p10On)) : words.crossing(named, day(p50On), day(p10On), day(p90On));
}
