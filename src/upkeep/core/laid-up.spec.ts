import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { dayPlus } from '../../shared/day.js';
import { countedDays, dayAfterCounted, laidUpSpans } from './laid-up.js';

const change = (day: string, state: string) => ({ day, state });

describe('the times in which a skid was laid up', () => {
  test('begin with the state and end with the next other one; the last may still last', () => {
    expect(
      laidUpSpans([
        change('2024-01-01', 'being commissioned'),
        change('2024-02-01', 'in service'),
        change('2024-06-01', 'laid up'),
        change('2024-06-15', 'laid up'),
        change('2024-09-01', 'out of service'),
        change('2025-01-01', 'laid up'),
      ]),
    ).toEqual([
      { from: '2024-06-01', to: '2024-09-01' },
      { from: '2025-01-01', to: null },
    ]);
    expect(laidUpSpans([])).toEqual([]);
  });

  test('a due that was over before the skid was laid up keeps its day', () => {
    expect(dayAfterCounted('2025-01-01', 30, [{ from: '2025-03-01', to: null }])).toBe('2025-01-31');
    expect(dayAfterCounted('2025-01-01', 59, [{ from: '2025-03-01', to: null }])).toBe('2025-03-01');
    expect(dayAfterCounted('2025-01-01', 60, [{ from: '2025-03-01', to: null }])).toBeNull();
  });

  test('a task that was done while laid up counts from the day on which the skid is taken up again', () => {
    expect(dayAfterCounted('2025-04-01', 10, [{ from: '2025-03-01', to: '2025-05-01' }])).toBe('2025-05-11');
  });

  test('counting days and finding the day after them agree, and no lay-up brings a due forward', () => {
    const spans = fc
      .uniqueArray(fc.integer({ min: 0, max: 900 }), { minLength: 0, maxLength: 6 })
      .map((days) => days.sort((a, b) => a - b).map((day) => dayPlus('2025-01-01', day)))
      .map((days) => days.flatMap((from, at) => (at % 2 === 0 && days[at + 1] !== undefined ? [{ from, to: days[at + 1] ?? null }] : [])));
    fc.assert(
      fc.property(spans, fc.integer({ min: 0, max: 400 }), fc.integer({ min: 1, max: 400 }), (laidUp, start, days) => {
        const from = dayPlus('2025-01-01', start);
        const due = dayAfterCounted(from, days, laidUp) ?? '';
        expect(countedDays(from, due, laidUp)).toBe(days);
        expect(countedDays(due, from, laidUp)).toBe(-days);
        expect(due >= dayPlus(from, days)).toBe(true);
      }),
      { numRuns: 80 },
    );
  });
});
