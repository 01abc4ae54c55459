import { describe, expect, it } from '@jest/globals';
import type { Schemas } from '../api/client.js';
import { drawBalance } from './balance-drawing.js';

const BOX = { width: 600, height: 240, left: 50, right: 10, top: 20, bottom: 20 };
const point = (week: number, cumulativeL: number, given: Partial<Schemas['BookPointView']> = {}): Schemas['BookPointView'] => ({
  at: new Date(Date.UTC(2026, 0, 5 + 7 * week)).toISOString(),
  volumeL: 300,
  observedL: week === 0 ? null : 56,
  expectedL: week === 0 ? null : 56,
  cumulativeL,
  limitL: 10 + week,
  high: 0,
  low: 0,
  average: 0,
  averageLimit: 0,
  signal: null,
  fits: true,
  ...given,
});

describe('the drawing of a balance', () => {
  it('puts 0 in the middle and every dip between the edges', () => {
    const drawing = drawBalance([point(0, 0), point(1, 12), point(2, 30, { signal: 'more' })], BOX);
    expect(drawing?.levels.find(({ value }) => value === 0)?.y).toBe(120);
    expect(drawing?.dots.map(({ x }) => x)).toEqual([50, 320, 590]);
    expect(drawing?.dots.map(({ signal }) => signal)).toEqual([false, false, true]);
    for (const { y } of drawing?.dots ?? []) expect(y).toBeGreaterThanOrEqual(BOX.top);
  });

  it('begins a line of its own where the books begin anew', () => {
    const drawing = drawBalance([point(0, 0), point(1, 4), point(2, 0, { fits: false }), point(3, 5)], BOX);
    expect(drawing?.line.match(/M/g)).toHaveLength(2);
    expect(drawing?.band.match(/Z/g)).toHaveLength(2);
  });

  it('is none of fewer than two dips', () => {
    expect(drawBalance([], BOX)).toBeNull();
    expect(drawBalance([point(0, 0)], BOX)).toBeNull();
  });
});
