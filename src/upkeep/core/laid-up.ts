import { type Day, dayPlus, daysBetween } from '../../shared/day.js';

/** A time in which a skid was laid up: from one day to the day on which it was taken up again, `null` while it still is. */
export interface LaidUpSpan {
  readonly from: Day;
  readonly to: Day | null;
}

/**
 * When a skid was laid up, from the changes of its service state in order of time: each span begins with a change to `laid up` and ends with the next other state.
 *
 * Source: own definition.
 *
 * @example laidUpSpans([{ day: '2025-03-01', state: 'laid up' }, { day: '2025-05-01', state: 'in service' }]) // => [{ "from": "2025-03-01", "to": "2025-05-01" }]
 */
export function laidUpSpans(changes: readonly { readonly day: Day; readonly state: string }[]): LaidUpSpan[] {
  const spans: LaidUpSpan[] = [];
  for (const { day, state } of changes) {
    const last = spans.at(-1);
    const isLaidUp = last?.to === null;
    if (state === 'laid up' && !isLaidUp) spans.push({ from: day, to: null });
    if (state !== 'laid up' && isLaidUp) spans.splice(-1, 1, { from: last.from, to: day });
  }
  return spans;
}

/**
 * Days of one time span that count for a rule that stands still while the skid is laid up: days from one to the other, less those laid up. A span that has not ended
 * takes everything after its beginning. Negative where the second day is the earlier.
 *
 * @example countedDays('2025-01-01', '2025-12-01', [{ from: '2025-03-01', to: '2025-05-01' }]) // => 273
 */
export function countedDays(from: Day, to: Day, spans: readonly LaidUpSpan[]): number {
  if (to < from) return -countedDays(to, from, spans);
  const laidUp = spans.reduce((sum, span) => {
    const begin = span.from > from ? span.from : from;
    const end = span.to === null || span.to > to ? to : span.to;
    return sum + Math.max(0, daysBetween(begin, end));
  }, 0);
  return daysBetween(from, to) - laidUp;
}

/**
 * The day on which so many counted days are over: the days laid up in between move it later. Where the skid is laid up at that time and nobody knows until when,
 * `null`. A negative or zero count lies so many plain days before.
 *
 * @example dayAfterCounted('2025-01-01', 180, [{ from: '2025-03-01', to: '2025-05-01' }]) // => "2025-08-30"
 * @example dayAfterCounted('2025-01-01', 180, [{ from: '2025-03-01', to: null }]) // => null
 */
export function dayAfterCounted(from: Day, days: number, spans: readonly LaidUpSpan[]): Day | null {
  let cursor = from;
  let left = days;
  for (const span of spans) {
    if (span.to !== null && span.to <= cursor) continue;
    const before = Math.max(0, daysBetween(cursor, span.from));
    if (left <= before) break;
    if (span.to === null) return null;
    left -= before;
    cursor = span.to;
  }
  return dayPlus(cursor, left);
}
