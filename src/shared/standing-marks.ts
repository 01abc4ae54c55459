import type { Standing } from './standing.js';

/** One stroke of a mark, in a square of 16: an outline, a filled shape, or what is cut out of it. */
interface MarkPath {
  readonly ink: 'line' | 'fill' | 'cut';
  readonly d: string;
  readonly dash?: readonly [number, number];
}

/** Side of the square that the marks are drawn in, and the widths of their strokes. */
export const MARK_SIZE = 16;
export const MARK_STROKES = { line: 1.6, cut: 2.4 };

/** A silhouette for each standing, so that it still reads in grey, in print and small. */
export const STANDING_MARKS: Record<Standing, readonly MarkPath[]> = {
  steady: [{ ink: 'line', d: 'M3 8a5 5 0 1 0 10 0a5 5 0 1 0-10 0Z' }],
  'no-data': [
    { ink: 'line', d: 'M2 8a6 6 0 1 0 12 0a6 6 0 1 0-12 0Z', dash: [2.4, 2.3] },
    { ink: 'line', d: 'M8 11.2v.1M6.3 6.4a1.8 1.8 0 1 1 2.6 1.7c-.6.3-.9.6-.9 1.2' },
  ],
  watch: [
    { ink: 'line', d: 'M8 1.5 14.5 8 8 14.5 1.5 8Z' },
    { ink: 'fill', d: 'M1.5 8h13L8 14.5Z' },
  ],
  due: [{ ink: 'fill', d: 'M8 1.2 15.3 14.4H.7Z' }],
  overdue: [
    { ink: 'fill', d: 'M2.5 1h11a1.5 1.5 0 0 1 1.5 1.5v11a1.5 1.5 0 0 1-1.5 1.5h-11a1.5 1.5 0 0 1-1.5-1.5v-11a1.5 1.5 0 0 1 1.5-1.5Z' },
    { ink: 'cut', d: 'M8 3.8v5.2M8 11.8v.4' },
  ],
};
