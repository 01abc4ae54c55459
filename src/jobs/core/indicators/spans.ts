/** A time from one moment to another, which no longer belongs to it. */
export interface Span {
  readonly from: Date;
  readonly to: Date;
}

const HOUR_MS = 3_600_000;

export const latest = (...moments: readonly Date[]): Date => new Date(Math.max(...moments.map(Number)));
export const earliest = (...moments: readonly Date[]): Date => new Date(Math.min(...moments.map(Number)));

/** The part of a span that lies within another, in hours; 0 where they do not meet. */
function hoursWithin(span: Span, within: Span): number {
  return Math.max(0, Number(earliest(span.to, within.to)) - Number(latest(span.from, within.from))) / HOUR_MS;
}

/** Spans that overlap or touch as one, in order of time; empty and backward ones are left out. */
export function merged(spans: readonly Span[]): Span[] {
  const out: Span[] = [];
  for (const span of [...spans].filter(({ from, to }) => to > from).sort((a, b) => a.from.getTime() - b.from.getTime())) {
    const last = out.at(-1);
    if (last !== undefined && span.from <= last.to) out[out.length - 1] = { from: last.from, to: latest(last.to, span.to) };
    else out.push(span);
  }
  return out;
}

/**
 * Hours that lie both in one set of spans and in another, each hour once.
 *
 * @example hoursInBoth([{ from: new Date('2025-01-01T00:00:00Z'), to: new Date('2025-01-02T00:00:00Z') }], [{ from: new Date('2025-01-01T18:00:00Z'), to: new Date('2025-01-05T00:00:00Z') }]) // => 6
 */
export function hoursInBoth(some: readonly Span[], others: readonly Span[]): number {
  const theirs = merged(others);
  return merged(some).reduce((sum, span) => sum + theirs.reduce((inner, other) => inner + hoursWithin(span, other), 0), 0);
}
