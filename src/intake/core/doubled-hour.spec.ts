import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { resolveDoubledHour } from './doubled-hour.js';

const HOUR = 60;
/** Minutes after 02:00 on the wall; the second pass is an hour later. */
const run = (...minutes: number[]) => minutes.map((minute) => ({ firstMs: minute, secondMs: minute + HOUR }));

describe('the doubled hour', () => {
  test('changes to its second pass where the clock goes back', () => {
    const rows = run(0, 10, 20, 30, 40, 50, 0, 10, 20, 30, 40, 50);
    expect(resolveDoubledHour(rows, -10, 10, 120)).toEqual({ kind: 'resolved', atMs: [0, 10, 20, 30, 40, 50, 60, 70, 80, 90, 100, 110] });
  });

  test('is resolved in a file that begins or ends inside of it', () => {
    expect(resolveDoubledHour(run(40, 50, 0, 10), undefined, undefined, undefined)).toEqual({ kind: 'resolved', atMs: [40, 50, 60, 70] });
    expect(resolveDoubledHour(run(40, 50), undefined, undefined, 120)).toEqual({ kind: 'resolved', atMs: [100, 110] });
    expect(resolveDoubledHour(run(0, 10), -10, 10, undefined)).toEqual({ kind: 'resolved', atMs: [0, 10] });
  });

  test('changes between two equal times of an hourly log', () => {
    expect(resolveDoubledHour(run(0, 0), -60, 60, 120)).toEqual({ kind: 'resolved', atMs: [0, 60] });
  });

  test('stays doubtful where it was logged once with neighbours on both sides', () => {
    expect(resolveDoubledHour(run(0, 10, 20, 30, 40, 50), -10, 10, 120)).toEqual({ kind: 'doubtful', atMs: [0, 10, 20, 30, 40, 50] });
  });

  test('stays doubtful for a lone row far from any other', () => {
    expect(resolveDoubledHour(run(30), -1440, 1440, 1500).kind).toBe('doubtful');
    expect(resolveDoubledHour(run(30), undefined, undefined, undefined).kind).toBe('doubtful');
  });

  test('stays doubtful where the rows go back more than once', () => {
    expect(resolveDoubledHour(run(0, 20, 10, 30, 0, 20), -10, 10, 120).kind).toBe('doubtful');
  });

  test('is resolved in a log with the newest row first', () => {
    expect(resolveDoubledHour(run(50, 20, 50, 20), 140, 30, -10)).toEqual({ kind: 'resolved', atMs: [110, 80, 50, 20] });
  });

  test('finds both passes of any regular log that runs through', () => {
    fc.assert(
      fc.property(fc.constantFrom(1, 2, 5, 10, 15, 30), fc.nat(100), (step, offset) => {
        const pass = Array.from({ length: HOUR / step }, (_, i) => (offset % step) + i * step);
        const answer = resolveDoubledHour(run(...pass, ...pass), (offset % step) - step, step, 120 + (offset % step));
        expect(answer).toEqual({ kind: 'resolved', atMs: [...pass, ...pass.map((minute) => minute + HOUR)] });
      }),
      { numRuns: 40 },
    );
  });
});
