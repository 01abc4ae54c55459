import type { Trend } from '../../shared/trend.js';
import { fromStored, type UnitCode } from '../../shared/units.js';
import type { Schemas } from '../api/client.js';
import { wallClockMs } from '../site-time.js';
import type { ChosenDimension } from '../units-choice.js';

export const DAY_MS = 86_400_000;

/** What each drawn quantity is measured in. */
export const DIMENSION_OF: Record<Schemas['TrendView']['quantity'], ChosenDimension> = { permeability: 'permeability', 'cartridge-dp': 'pressure' };

const dayMs = (date: string) => Date.parse(`${date}T00:00:00Z`);

/** A series as the service gives it, in the unit of the reader and on the wall clock of the site. */
export function toTrend(view: Schemas['TrendView'], code: UnitCode, timeZone: string): Trend {
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
    events: eventsByDay(view.events.map((event) => ({ atMs: wallClockMs(Date.parse(event.at), timeZone), label: event.label }))),
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
