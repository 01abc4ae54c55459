import { median } from 'd3-array';
import { dayPlus, daysBetween } from '../../../shared/day.js';
import { number } from '../../../shared/format.js';
import type { Trend, TrendSpan } from '../../../shared/trend.js';
import { trendSentence } from '../../../shared/trend-sentence.js';
import { DAY_MS, DIMENSION_OF, extentOf, spanFrom, type TrendSeries, toTrend } from '../../../shared/trend-series.js';
import { unitDigits, unitLabel } from '../../../shared/unit-choice.js';
import type { Block } from '../document.js';
import type { PeriodManner } from '../manner.js';
import type { Period, SkidPeriod } from '../period-data.js';
import { words } from '../words.js';

const EDGE_DAYS = 14;

/** The plots of the period; one that reaches the present goes on into the forecast. */
export function conditionSection({ trends }: Pick<SkidPeriod, 'trends'>, manner: PeriodManner): Block[] {
  const measured = trends.filter((series) => hasValueIn(series, manner.period));
  const heading: Block = { kind: 'heading', level: 2, text: words.condition.title };
  if (measured.length === 0) return [heading, { kind: 'paragraph', text: words.condition.none }];
  return [heading, ...measured.flatMap((series) => plot(series, manner))];
}

function plot(series: TrendSeries, { units, timeZone, period }: PeriodManner): Block[] {
  const code = units[DIMENSION_OF[series.quantity]];
  const [unit, digits] = [unitLabel(code), unitDigits(code)];
  const whole = toTrend(series, code, timeZone);
  const reaches = reachesPresent(series, period);
  const span = spanOf(whole, period, reaches);
  const trend = duringSpan(whole, span, reaches);
  const course = courseOf(whole, period, unit, digits);
  const said = reaches ? trendSentence(series, whole.limit, unit, digits) : course;
  return [
    { kind: 'heading', level: 3, text: `${series.title}, ${unit}` },
    {
      kind: 'trend',
      title: series.title,
      unit,
      sentence: said,
      trend,
      span,
      limitLabel: words.condition.limitLabel(series.limitLabel, number(trend.limit, digits)),
      baselineLabel: words.condition.baselineLabel(number(trend.baseline, digits)),
    },
    ...(reaches ? [{ kind: 'paragraph', text: course, tone: 'soft' } as const] : []),
  ];
}

/** Whether the last measurement lies in the period, so that the forecast goes on where it ends. */
function reachesPresent({ firstDay, values }: TrendSeries, { to }: Period): boolean {
  return firstDay !== null && dayPlus(firstDay, values.length - 1) <= to;
}

const dayMs = (day: string): number => Date.parse(`${day}T00:00:00Z`);

function spanOf(trend: Trend, { from, to }: Period, reaches: boolean): TrendSpan {
  const fromMs = Math.max(trend.firstDayMs, dayMs(from));
  const extent = extentOf([trend]);
  return reaches && extent !== undefined ? spanFrom(Math.min(fromMs, extent.lastMs), extent) : { fromMs, toMs: dayMs(to) };
}

function duringSpan(trend: Trend, { fromMs, toMs }: TrendSpan, withForecast: boolean): Trend {
  const events = trend.events.filter(({ atMs }) => atMs >= fromMs && atMs < toMs + DAY_MS);
  return withForecast ? { ...trend, events } : { ...trend, events, forecast: [], crossing: null };
}

function valuesIn({ firstDay, values }: Pick<TrendSeries, 'firstDay' | 'values'>, { from, to }: Period): (number | null)[] {
  if (firstDay === null) return [];
  return values.slice(Math.max(0, daysBetween(firstDay, from)), Math.max(0, daysBetween(firstDay, to) + 1));
}

const hasValueIn = (series: TrendSeries, period: Period): boolean => valuesIn(series, period).some((value) => value !== null);

/** The course in words: where it began and where it ended. */
function courseOf(trend: Trend, period: Period, unit: string, digits: number): string {
  const firstDay = new Date(trend.firstDayMs).toISOString().slice(0, 10);
  const values = valuesIn({ firstDay, values: trend.values }, period);
  const known = values.filter((value) => value !== null);
  const [count, of] = [number(known.length), number(daysBetween(period.from, period.to) + 1)];
  const [early, late] = [median(values.slice(0, EDGE_DAYS)), median(values.slice(-EDGE_DAYS))];
  if (values.length < 2 * EDGE_DAYS || early === undefined || late === undefined) return words.condition.once(count, of, number(median(known), digits), unit);
  return words.condition.course(count, of, number(early, digits), number(late, digits), unit);
}
