import type { Course } from './course.js';
import { operate } from './operate.js';
import { DAY_MS } from './period.js';

/** What a skid did, day by day (UTC), from the day on which its record begins. */
export interface History {
  readonly firstMs: number;
  readonly hours: Float64Array;
  readonly filtrateM3: Float64Array;
  readonly cycles: Float64Array;
  readonly starts: Float64Array;
}

export function historyOf(course: Course, cyclesPerDay?: number): History {
  const { fromMs, untilMs } = course.period;
  const firstMs = Math.floor(fromMs / DAY_MS) * DAY_MS;
  const days = Math.ceil((untilMs - firstMs) / DAY_MS) + 1;
  const history = { hours: new Float64Array(days), filtrateM3: new Float64Array(days), cycles: new Float64Array(days), starts: new Float64Array(days) };
  for (const { startMs, minutes, filtrateM3, afterStanding } of operate(course, cyclesPerDay)) {
    const day = Math.floor((startMs - firstMs) / DAY_MS);
    add(history.hours, day, minutes / 60);
    add(history.filtrateM3, day, filtrateM3);
    add(history.cycles, day, 1);
    add(history.starts, day, afterStanding ? 1 : 0);
  }
  return { firstMs, ...history };
}

function add(days: Float64Array, day: number, amount: number): void {
  days[day] = (days[day] ?? 0) + amount;
}

/** The sum of a series up to a moment; a day counts by the part of it that has passed. Before the record it runs back at the mean pace of the record. */
export function sumUntil(series: Float64Array, firstMs: number): (ms: number) => number {
  const sums = new Float64Array(series.length + 1);
  for (const [day, amount] of series.entries()) sums[day + 1] = (sums[day] ?? 0) + amount;
  const total = sums[series.length] ?? 0;
  return (ms) => {
    const place = (ms - firstMs) / DAY_MS;
    if (place < 0) return (place * total) / series.length;
    const day = Math.min(Math.floor(place), series.length - 1);
    return (sums[day] ?? 0) + (series[day] ?? 0) * Math.min(1, place - day);
  };
}
