import { describe, expect, test } from '@jest/globals';
import { drawForecast, type ForecastOf } from './forecast-drawing.js';

const BOX = { width: 300, height: 120, left: 40, right: 10, top: 10, bottom: 20 };
const CARD: ForecastOf = {
  past: [
    { day: '2026-11-12', onHand: 8 },
    { day: '2026-11-19', onHand: 6 },
  ],
  ahead: [
    { day: '2026-11-19', expected: 5, low: 4 },
    { day: '2026-12-03', expected: 2, low: -1 },
  ],
  arrivals: [{ day: '2026-11-26' }, { day: '2027-06-01' }],
  expiries: [],
  point: 3,
};

describe('the balance of a stock card over time', () => {
  test('goes in steps while it was counted, and ends where the forecast begins', () => {
    const drawing = drawForecast(CARD, BOX);
    expect(drawing?.past).toBe('M40.0 10.0L123.3 10.0L123.3 32.5');
    expect(drawing?.todayX).toBeCloseTo(123.33, 1);
    expect(drawing?.expected.startsWith('M123.3')).toBe(true);
  });

  test('has whole levels from 0, keeps what is less than nothing on the ground, and leaves out what comes later than is drawn', () => {
    const drawing = drawForecast(CARD, BOX);
    expect(drawing?.levels.map(({ value }) => value)).toEqual([0, 2, 4, 6, 8]);
    expect(drawing?.band).toContain('L290.0 100.0');
    expect(drawing?.arrivals).toHaveLength(1);
  });

  test('is not drawn of a single day', () => {
    expect(drawForecast({ ...CARD, past: CARD.past.slice(0, 1), ahead: [] }, BOX)).toBeNull();
  });
});
