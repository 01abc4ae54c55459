import { describe, expect, test } from '@jest/globals';
import { cumsum } from 'd3-array';
import fc from 'fast-check';
import { runHoursFromStates, type StateSample } from './run-hours-from-states.js';

const start = Date.UTC(2025, 0, 1);
const minute = (n: number) => new Date(start + n * 60_000);
const samples = (...states: [minute: number, on: 0 | 1][]): StateSample[] => states.map(([n, on]) => ({ at: minute(n), on: on === 1 }));
const record = (of: StateSample[], from: number, to: number, maxGap = 15) =>
  runHoursFromStates(Object.freeze(of), { from: minute(from), to: minute(to) }, maxGap);

describe('run hours and starts from samples of on and off', () => {
  test('hold each state until the next sample, however uneven', () => {
    expect(record(samples([0, 0], [10, 1], [13, 1], [25, 0], [30, 1], [36, 0]), 0, 36)).toEqual({
      runHours: (15 + 6) / 60,
      starts: 2,
      unknownHours: 0,
    });
  });

  test('are unknown beyond the longest gap, and a gap of exactly that length is known', () => {
    expect(record(samples([0, 1], [15, 1], [31, 1]), 0, 31)).toEqual({ runHours: 0.25, starts: 0, unknownHours: expect.closeTo(16 / 60, 12) });
    expect(record(samples([10, 1], [20, 1]), 0, 60)).toMatchObject({ runHours: expect.closeTo(1 / 6, 12), unknownHours: expect.closeTo(50 / 60, 12) });
    expect(record([], 0, 60)).toEqual({ runHours: 0, starts: 0, unknownHours: 1 });
  });

  test('count a start across a gap from off to on, none from on to on and none at the first sample', () => {
    expect(record(samples([0, 0], [60, 1], [65, 1]), 0, 65).starts).toBe(1);
    expect(record(samples([0, 1], [60, 1], [65, 1]), 0, 65).starts).toBe(0);
  });

  test('are cut at the edges of the span; a start on an edge belongs to the span that begins there', () => {
    const states = samples([0, 0], [10, 1], [20, 1], [30, 0]);
    expect(record(states, 5, 10)).toMatchObject({ runHours: 0, starts: 0 });
    expect(record(states, 10, 25)).toMatchObject({ runHours: 0.25, starts: 1 });
  });

  test('of two spans add up to those of both', () => {
    const steps = fc.array(fc.tuple(fc.integer({ min: 1, max: 25 }), fc.boolean()), { maxLength: 40 });
    fc.assert(
      fc.property(steps, fc.integer({ min: 0, max: 600 }), (states, cut) => {
        const minutes = cumsum(states, ([gap]) => gap);
        const all = states.map(([, on], i) => ({ at: minute(minutes[i] ?? 0), on }));
        const [first, second, both] = [record(all, 0, cut), record(all, cut, 700), record(all, 0, 700)];
        expect(first.runHours + second.runHours).toBeCloseTo(both.runHours, 9);
        expect(first.unknownHours + second.unknownHours).toBeCloseTo(both.unknownHours, 9);
        expect(first.starts + second.starts).toBe(both.starts);
        expect(both.runHours + both.unknownHours).toBeLessThanOrEqual(700 / 60 + 1e-9);
      }),
      { numRuns: 50 },
    );
  });
});
