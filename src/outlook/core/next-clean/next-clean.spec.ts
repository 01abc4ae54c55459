import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { LEVEL_HORIZONS, learnLevels } from '../permeability/level-law.js';
import { pastChanges } from '../permeability/past-changes.js';
import type { CleanRun } from './clean-run.js';
import { learnHabit, nextClean } from './next-clean.js';

/** A run whose level falls evenly, by `fall` in all (in logarithms) until it is cleaned. */
function run(unit: string, from: number, days: number, { fall = 0.25, ended = 'clean' }: { fall?: number; ended?: CleanRun['ended'] } = {}): CleanRun {
  const points = Array.from({ length: days }, (_, i) => ({
    dayNo: from + i,
    clock: i,
    value: 200 * Math.exp((-fall * i) / days) * (1 + 0.004 * Math.sin(2.4 * i)),
  }));
  return { unit, from, to: from + days, ended, points };
}

const habitOf = (runs: readonly CleanRun[]) => learnHabit(runs, learnLevels(runs.flatMap((one) => pastChanges(one, LEVEL_HORIZONS))));

describe('the days until the next recovery clean', () => {
  test('begin with what intervals were elsewhere, and are not known where no clean ended one', () => {
    const habit = habitOf([run('a', 0, 100), run('b', 0, 110), run('c', 0, 90)]);
    const { p10 = NaN, p50 = NaN, p90 = NaN } = nextClean(habit, { unit: 'z', from: 0, points: [] }, 1) ?? {};
    expect(p50).toBeGreaterThan(85);
    expect(p50).toBeLessThan(115);
    expect(p10 <= p50 && p50 <= p90).toBe(true);
    expect(nextClean(habitOf([run('a', 0, 100, { ended: 'running' })]), { unit: 'z', from: 0, points: [] }, 1)).toBeNull();
    expect(nextClean(habitOf([]), { unit: 'z', from: 0, points: [] }, 1)).toBeNull();
  });

  test("come nearer to the unit's own intervals the more of them there are", () => {
    const others = [run('a', 0, 100), run('b', 0, 110), run('c', 0, 90)];
    const asked = (own: readonly CleanRun[]) => nextClean(habitOf([...others, ...own]), { unit: 'z', from: 1000, points: [] }, 1001)?.p50 ?? NaN;
    const [one, three] = [asked([run('z', 700, 200)]), asked([run('z', 100, 200), run('z', 300, 200), run('z', 500, 200)])];
    expect(asked([])).toBeLessThan(one);
    expect(one).toBeLessThan(three);
    expect(three).toBeLessThan(201);
  });

  test('an interval that still runs counts as longer than it is', () => {
    const over = [run('a', 0, 100), run('b', 0, 110), run('c', 0, 90)];
    const asked = (runs: readonly CleanRun[]) => nextClean(habitOf(runs), { unit: 'z', from: 0, points: [] }, 1)?.p50 ?? NaN;
    expect(asked([...over, run('d', 0, 300, { ended: 'running' })])).toBeGreaterThan(asked(over));
  });

  test('go by the level where cleans came at a level and intervals say nothing', () => {
    const runs = [60, 240, 90, 180, 120, 75, 210].map((days, at) => run(`unit ${at}`, 0, days));
    const said = nextClean(habitOf(runs), run('z', 0, 150), 120);
    expect(said?.bySignal).toBeGreaterThan(0.2);
    const byIntervals = nextClean(habitOf(runs), { unit: 'z', from: 0, points: [] }, 120);
    expect(byIntervals?.bySignal).toBe(0);
  });

  test('are days ahead in order, whatever the runs and the day', () => {
    const anyRun = fc.record({
      unit: fc.constantFrom('a', 'b', 'c', 'z'),
      from: fc.integer({ min: 0, max: 400 }),
      days: fc.integer({ min: 1, max: 120 }),
      ended: fc.constantFrom('clean' as const, 'running' as const),
    });
    fc.assert(
      fc.property(fc.array(anyRun, { maxLength: 4 }), fc.integer({ min: 0, max: 2000 }), (runs, age) => {
        const habit = habitOf(runs.map(({ unit, from, days, ended }) => run(unit, from, days, { ended })));
        const said = nextClean(habit, run('z', 500, 60), 500 + age);
        if (said === null) return;
        for (const days of [said.p10, said.p50, said.p90]) expect(Number.isFinite(days)).toBe(true);
        expect(0 < said.p10 && said.p10 <= said.p50 && said.p50 <= said.p90).toBe(true);
      }),
      { numRuns: 8 },
    );
  });
});
