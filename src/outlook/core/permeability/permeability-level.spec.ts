import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { changesAhead } from './level-ahead.js';
import { learnLevels } from './level-law.js';
import type { LevelRun } from './level-point.js';
import { signsAt } from './level-signs.js';
import { levelMetWithin } from './level-to-limit.js';
import { pastChanges } from './past-changes.js';
import { robustRidge } from './robust-ridge.js';

/** A run that falls by `decline` of itself a day, with a ripple of a few days' period. */
function run(unit: string, decline: number, { days = 150, ripple = 0.005, from = 0 } = {}): LevelRun {
  return {
    unit,
    points: Array.from({ length: days }, (_, i) => ({
      dayNo: from + i,
      clock: 1.2 * i,
      value: 200 * Math.exp(-decline * i) * (1 + ripple * Math.sin(2.4 * i)),
    })),
  };
}

const HORIZONS = [14, 30, 60];
const changesOf = (...runs: readonly LevelRun[]) => runs.flatMap((one) => pastChanges(one, HORIZONS));

function forecast(runs: readonly LevelRun[], asked: LevelRun) {
  const signs = signsAt(asked.points, asked.points.length - 1);
  return signs === null ? null : { signs, ahead: changesAhead(learnLevels(changesOf(...runs), HORIZONS), signs, [], asked.unit) };
}

describe('the level of a membrane between cleans', () => {
  test('can be told from a reading a week, its own past weeks among what is learned from', () => {
    const { points } = run('a', 0.002);
    const weekly = { unit: 'a', points: points.filter((_, i) => i % 7 === 0) };
    expect(signsAt(weekly.points, 2)).toBeNull();
    const signs = signsAt(weekly.points, 12);
    expect(Math.log((weekly.points[12]?.value ?? 1) / (signs?.level ?? 1))).toBeCloseTo(0, 1);
    expect((signs?.drift ?? 0) * 1.2).toBeCloseTo(-0.002, 3);
    expect(new Set(changesOf(weekly).map(({ daysAhead }) => daysAhead))).toEqual(new Set(HORIZONS));
  });

  test('learns from other units that a decline goes on where theirs did, and that it does not where theirs stopped', () => {
    const steady = [run('a', 0.001), run('b', 0.002), run('c', 0.003)];
    const goesOn = forecast(steady, run('z', 0.002, { days: 80 }))?.ahead[2]?.change;
    expect(goesOn).toBeCloseTo(-0.002 * 60, 1);
    const stops = steady.map(({ unit, points }) => ({
      unit,
      points: points.map((point) => ({ ...point, value: point.dayNo > 60 ? (points[60]?.value ?? 1) : point.value })),
    }));
    expect(Math.abs(forecast(stops, run('z', 0.002, { days: 80 }))?.ahead[2]?.change ?? NaN)).toBeLessThan(0.06);
  });

  test('believes half of the recent decline before anything is learned, and is less sure of what lies farther ahead', () => {
    const ahead = forecast([], run('z', 0.002, { days: 80, ripple: 0 }))?.ahead ?? [];
    expect(ahead.map(({ change }) => change)).toEqual(HORIZONS.map((days) => expect.closeTo(-0.001 * days, 2)));
    const reaches = ahead.map(({ reach }) => reach);
    expect(reaches).toEqual([...reaches].sort((a, b) => a - b));
  });

  test('takes nothing from before a clean, and nothing from days after the one that is asked about', () => {
    const { points } = run('z', 0.002, { days: 90 });
    const later = points.map((point) => (point.dayNo > 60 ? { ...point, value: 1 } : point));
    expect(signsAt(later, 60)).toEqual(signsAt(points, 60));
    expect(pastChanges({ unit: 'z', points: points.slice(0, 40) }, [14]).every(({ dayNo }) => dayNo + 14 <= 41)).toBe(true);
  });

  test.each([
    ['no value', []],
    ['one value', run('z', 0, { days: 1 }).points],
    ['nine values', run('z', 0, { days: 9 }).points],
    ['a clock that stands still', run('z', 0).points.map((point) => ({ ...point, clock: 5 }))],
    ['values that are not above nought', run('z', 0).points.map((point) => ({ ...point, value: 0 }))],
    ['two values months apart', run('z', 0).points.filter(({ dayNo }) => dayNo % 140 === 0)],
  ])('says nothing of %s', (_, points) => {
    expect(signsAt(points, points.length - 1)).toBeNull();
    expect(pastChanges({ unit: 'z', points }, HORIZONS)).toEqual([]);
  });

  test('a level that never moves is forecast to stay', () => {
    const ahead = forecast([run('a', 0, { ripple: 0 })], run('z', 0, { ripple: 0 }))?.ahead ?? [];
    for (const { change, reach } of ahead) expect([Math.abs(change) < 1e-9, reach > 0]).toEqual([true, true]);
  });

  test('the units of the value and of the clock change nothing', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 100, noNaN: true }), fc.double({ min: 0.01, max: 100, noNaN: true }), (ofValue, ofClock) => {
        const scaled = ({ unit, points }: LevelRun) => ({
          unit,
          points: points.map(({ dayNo, clock, value }) => ({ dayNo, clock: clock * ofClock, value: value * ofValue })),
        });
        const [runs, asked] = [[run('a', 0.001), run('b', 0.003)], run('z', 0.002, { days: 80 })];
        const [plain, inOthers] = [forecast(runs, asked)?.ahead ?? [], forecast(runs.map(scaled), scaled(asked))?.ahead ?? []];
        for (const [i, { change, reach }] of plain.entries()) {
          expect(inOthers[i]?.change).toBeCloseTo(change, 6);
          expect(inOthers[i]?.reach).toBeCloseTo(reach, 6);
        }
      }),
      { numRuns: 5 },
    );
  });
});

describe('when a level meets its limit', () => {
  const ahead = HORIZONS.map((daysAhead) => ({ daysAhead, change: -0.002 * daysAhead, reach: 0.005 * Math.sqrt(daysAhead) }));

  test('is a distribution over the days: never falling, about one half where the middle of the drift arrives', () => {
    const met = levelMetWithin(ahead, { distance: 0.2, falling: true });
    const shares = [1, 30, 60, 90, 120, 200, 400].map(met);
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
    expect(met(100)).toBeGreaterThan(0.35);
    expect(met(100)).toBeLessThan(0.65);
  });

  test('is certain where the limit is met, and later for a level that moves away', () => {
    expect(levelMetWithin(ahead, { distance: 0, falling: true })(1)).toBe(1);
    expect(levelMetWithin(ahead, { distance: 0.2, falling: false })(100)).toBeLessThan(levelMetWithin(ahead, { distance: 0.2, falling: true })(100));
  });
});

describe('weights by least absolute error', () => {
  test('a wrong case does not bend them', () => {
    const cases = Array.from({ length: 40 }, (_, i) => ({ features: [i, 1], target: i === 7 ? 1000 : 2 * i + 3, weight: 1 }));
    const [slope, start] = robustRidge(cases, [0, 0], 0);
    expect(slope).toBeCloseTo(2, 1);
    expect(start).toBeCloseTo(3, 0);
  });
});
