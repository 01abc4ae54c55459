import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { thin } from './thin.js';
import { drawTrend, type Trend } from './trend.js';

const DAY_MS = 86_400_000;
const FIRST = Date.UTC(2026, 0, 1);
const BOX = { width: 660, height: 264, left: 50, right: 10, top: 22, bottom: 24 };
const at = (day: number) => FIRST + day * DAY_MS;
const trendOf = (fields: Partial<Trend>): Trend => ({
  firstDayMs: FIRST,
  values: [],
  forecast: [],
  limit: null,
  baseline: null,
  crossing: null,
  events: [],
  ...fields,
});
const spots = (path: string) => [...path.matchAll(/(-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => ({ x: Number(x), y: Number(y) }));

describe('thinning of a long series', () => {
  it('keeps a spike of a single day among ten years', () => {
    const values = Array.from({ length: 3650 }, (_, day) => (day === 1234 ? 900 : 100));
    expect(thin(values, 0, values.length, 300).flat()).toContain(1234);
  });

  it('draws at most four values a pixel column', () => {
    const values = Array.from({ length: 50_000 }, (_, index) => Math.sin(index));
    expect(thin(values, 0, values.length, 600).flat().length).toBeLessThanOrEqual(2400);
  });

  it('never joins two values across a missing one', () => {
    fc.assert(
      fc.property(fc.array(fc.option(fc.integer({ min: 0, max: 9 }), { freq: 4 }), { maxLength: 200 }), fc.integer({ min: 1, max: 50 }), (values, columns) => {
        for (const run of thin(values, 0, values.length, columns)) {
          const [first, last] = [run[0] ?? 0, run.at(-1) ?? 0];
          expect(values.slice(first, last + 1)).not.toContain(null);
          expect(run).toEqual([...run].sort((a, b) => a - b));
        }
      }),
      { numRuns: 100 },
    );
  });

  it('keeps the smallest and the largest of every run', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 1000 }), { minLength: 1, maxLength: 300 }), (values) => {
        const kept = thin(values, 0, values.length, 7)
          .flat()
          .map((index) => values[index]);
        expect(Math.max(...kept.map(Number))).toBe(Math.max(...values));
        expect(Math.min(...kept.map(Number))).toBe(Math.min(...values));
      }),
      { numRuns: 50 },
    );
  });
});

describe('drawing a trend', () => {
  const values = [200, 190, 180, null, null, 170, null, 160, 150];
  const span = { fromMs: at(0), toMs: at(20) };

  it('leaves a gap where days are missing, and draws a day that stands alone as a dot', () => {
    const drawing = drawTrend(trendOf({ values }), span, BOX);
    expect(drawing.line.match(/M/g)).toHaveLength(2);
    expect(drawing.dots).toMatch(/^M[\d.]+ [\d.]+h0$/);
  });

  it('stays between its margins, the higher value above the lower one', () => {
    const drawn = spots(drawTrend(trendOf({ values }), span, BOX).line);
    for (const { x, y } of drawn) {
      expect(x).toBeGreaterThanOrEqual(BOX.left);
      expect(x).toBeLessThanOrEqual(BOX.width - BOX.right);
      expect(y).toBeGreaterThanOrEqual(BOX.top);
      expect(y).toBeLessThanOrEqual(BOX.height - BOX.bottom);
    }
    expect(drawn[0]?.y).toBeLessThan(drawn.at(-1)?.y ?? 0);
  });

  it('finds the time under a pixel again', () => {
    const { xAt, msAt } = drawTrend(trendOf({ values }), span, BOX);
    expect(msAt(xAt(at(7)))).toBeCloseTo(at(7), -2);
  });

  it('lets a forecast that runs away stretch the scale by no more than a seventh on each side', () => {
    const forecast = [9, 14, 19].map((day, index) => ({ atMs: at(day), low: 100, mid: 150 + index, high: 100_000 }));
    const { levels } = drawTrend(trendOf({ values, forecast, limit: 140 }), span, BOX);
    expect(Math.max(...levels.map((level) => level.value))).toBeLessThanOrEqual(200 + 60 * 0.3);
  });

  it('marks where the limit is met; a late end that nobody knows reaches the edge', () => {
    const crossing = { earlyMs: at(10), likelyMs: at(14), lateMs: null };
    const drawn = drawTrend(trendOf({ values, limit: 140, crossing }), span, BOX).crossing;
    expect(drawn?.lateX).toBe(BOX.width - BOX.right);
    expect(drawn?.earlyX).toBeLessThan(drawn?.likelyX ?? 0);
  });

  it('says nothing of a crossing beyond the span', () => {
    const crossing = { earlyMs: at(30), likelyMs: at(40), lateMs: at(50) };
    expect(drawTrend(trendOf({ values, limit: 140, crossing }), span, BOX).crossing).toBeNull();
  });

  it('numbers the events by their place in the record, whatever part of it is shown', () => {
    const events = [2, 8, 30].map((day) => ({ atMs: at(day), label: 'Clean' }));
    expect(drawTrend(trendOf({ values, events }), { fromMs: at(5), toMs: at(20) }, BOX).flags.map((flag) => flag.first)).toEqual([2]);
  });

  it('gives events that are too close to tell apart one flag', () => {
    const events = [2, 3, 4, 17].map((day) => ({ atMs: at(day), label: 'Clean' }));
    const flags = drawTrend(trendOf({ values, events }), { fromMs: at(0), toMs: at(40) }, BOX).flags;
    expect(flags.map(({ first, last }) => [first, last])).toEqual([
      [1, 3],
      [4, 4],
    ]);
  });

  it('draws an empty axis where there is nothing to draw', () => {
    const drawing = drawTrend(trendOf({}), span, BOX);
    expect(drawing).toMatchObject({ line: '', dots: '', band: '', mid: '', limitY: null, crossing: null });
    expect(drawing.levels.length).toBeGreaterThan(1);
  });
});
