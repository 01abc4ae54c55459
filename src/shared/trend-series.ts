import type { Trend, TrendSpan } from './trend.js';
import type { ChosenDimension } from './unit-choice.js';
import { fromStored, type UnitCode } from './units.js';
import { wallClockMs } from './wall-clock.js';

export const DAY_MS = 86_400_000;

/** A daily series with its limit, baseline and forecast, in stored units, as the service gives it. */
export interface TrendSeries {
  readonly quantity: 'permeability' | 'cartridge-dp';
  readonly title: string;
  readonly firstDay: string | null;
  readonly values: readonly (number | null)[];
  readonly limit: number | null;
  readonly limitLabel: string;
  readonly baseline: number | null;
  readonly outlook: TrendOutlook | null;
  readonly events: readonly { readonly at: string | Date; readonly label: string }[];
}

export interface TrendOutlook {
  readonly kind: 'outlook' | 'limit-met' | 'too-little-data';
  readonly p10On: string | null;
  readonly p50On: string | null;
  readonly p90On: string | null;
  readonly reason: string;
  readonly path: readonly { readonly day: string; readonly low: number; readonly mid: number; readonly high: number }[];
}

/** What each drawn quantity is measured in. */
export const DIMENSION_OF: Record<TrendSeries['quantity'], ChosenDimension> = { permeability: 'permeability', 'cartridge-dp': 'pressure' };

const dayMs = (date: string) => Date.parse(`${date}T00:00:00Z`);

/** A series as the service gives it, in the unit of the reader and on the wall clock of the site. */
export function toTrend(view: TrendSeries, code: UnitCode, timeZone: string): Trend {
  const to = (value: number) => fromStored(value, code);
  const { outlook } = view;
  const { p10On, p50On, p90On } = outlook ?? {};
  return {
    firstDayMs: view.firstDay === null ? 0 : dayMs(view.firstDay),
    values: view.values.map((value) => (value === null ? null : to(value))),
    forecast: (outlook?.path ?? []).map((point) => ({ atMs: dayMs(point.day), low: to(point.low), mid: to(point.mid), high: to(point.high) })),
    limit: view.limit === null ? null : to(view.limit),
    baseline: view.baseline === null ? null : to(view.baseline),
    crossing: p10On && p50On ? { earlyMs: dayMs(p10On), likelyMs: dayMs(p50On), lateMs: p90On ? dayMs(p90On) : null } : null,
    events: eventsByDay(view.events.map((event) => ({ atMs: wallClockMs(new Date(event.at).getTime(), timeZone), label: event.label }))),
  };
}

/** What happened on one day is one event: a recovery clean has a row for each of its chemicals, which follow the comma. */
function eventsByDay(events: Trend['events']): Trend['events'] {
  const days = new Map<string, { atMs: number; head: string; details: Set<string> }>();
  for (const { atMs, label } of events) {
    const [head = '', ...details] = label.split(', ');
    const key = `${Math.floor(atMs / DAY_MS)} ${head}`;
    const known = days.get(key) ?? { atMs, head, details: new Set() };
    for (const detail of details) known.details.add(detail);
    days.set(key, known);
  }
  return [...days.values()].map(({ atMs, head, details }) => ({ atMs, label: [head, ...details].join(', ') }));
}

/** First and last day that was measured, and the end of the forecast. */
export function extentOf(trends: readonly Trend[]): { firstMs: number; lastMs: number; endMs: number } | undefined {
  const drawn = trends.filter((trend) => trend.values.length > 0);
  if (drawn.length === 0) return undefined;
  const lastMs = Math.max(...drawn.map((trend) => trend.firstDayMs + (trend.values.length - 1) * DAY_MS));
  return {
    firstMs: Math.min(...drawn.map((trend) => trend.firstDayMs)),
    lastMs,
    endMs: Math.max(lastMs, ...drawn.map((trend) => trend.forecast.at(-1)?.atMs ?? 0)),
  };
}

/** Of the measured time that is shown, so much more is left for the forecast, and at least three weeks. */
const FORECAST_SHARE = 0.5;
const LEAST_FORECAST_DAYS = 21;

/** From a moment to the last measurement, and as far into the forecast as suits it. */
export function spanFrom(fromMs: number, { lastMs, endMs }: { readonly lastMs: number; readonly endMs: number }): TrendSpan {
  const ahead = Math.max(LEAST_FORECAST_DAYS * DAY_MS, (lastMs - fromMs) * FORECAST_SHARE);
  return { fromMs, toMs: Math.max(fromMs + DAY_MS, Math.min(endMs, lastMs + ahead)) };
}
