import { describe, expect, test } from '@jest/globals';
import { dayPlus } from '../../../shared/day.js';
import { baselinesInWords } from './baselines-in-words.js';
import { cleanRecoveries, declineInWords } from './clean-recovery.js';
import { irreversibleFoulingIndex } from './fouling-index.js';
import { inferredCleans } from './inferred-cleans.js';
import { resistanceOf } from './resistance-of.js';
import { type FoulingDay, resistanceParts } from './resistance-parts.js';

const FIRST = '2026-01-01';
const day = (at: number) => dayPlus(FIRST, at);
const record = (values: readonly (readonly [start: number | null, mean: number | null])[], loadM3PerM2 = 1.44): FoulingDay[] =>
  values.map(([startLmhBar, meanLmhBar], at) => ({ day: day(at), startLmhBar, meanLmhBar, loadM3PerM2 }));

const repeated = (times: number, value: readonly [number | null, number | null]) => Array.from({ length: times }, () => value);

describe('the resistance of a day', () => {
  /** Permeabilities after each clean, reckoned by hand: 250 new, 240 after CIP, 220 after CEB, 200 at the start of a run, 180 at its end; resistance is 3.59425e14 / permeability. */
  test('splits into what each kind of clean would take away', () => {
    const mean = 2 / (1 / 200 + 1 / 180);
    const days = [
      ...record([
        [240, 235],
        [240, 235],
        [220, 215],
        [220, 215],
        [200, mean],
      ]),
    ];
    const cleans = [
      { kind: 'CIP' as const, day: '2025-12-31' },
      { kind: 'CEB' as const, day: day(1) },
    ];
    const last = resistanceParts(days, cleans, 250, 20).at(-1);
    expect(last?.clean).toBeCloseTo(1.4377e12, -9);
    expect(last?.irreversible).toBeCloseTo(5.99e10, -8.5);
    expect(last?.cip).toBeCloseTo(1.361e11, -9);
    expect(last?.ceb).toBeCloseTo(1.634e11, -9);
    expect(last?.hydraulic).toBeCloseTo(1.997e11, -9);
  });

  test('adds up to the resistance at the end of a run, whatever is known', () => {
    const days = record([
      [230, 220],
      [215, 210],
      [190, 180],
    ]);
    for (const cleans of [[], [{ kind: 'CIP' as const, day: day(0) }]]) {
      for (const parts of resistanceParts(days, cleans, 250, 20)) {
        const source = days.find((one) => one.day === parts.day);
        const atEnd = 2 * resistanceOf(source?.meanLmhBar ?? 0, 20) - resistanceOf(source?.startLmhBar ?? 0, 20);
        expect((parts.clean + (parts.irreversible ?? 0) + (parts.cip ?? 0) + (parts.ceb ?? 0) + (parts.hydraulic ?? 0)) / atEnd).toBeCloseTo(1, 9);
      }
    }
  });

  test('knows nothing irreversible before the first recovery clean, and nothing hydraulic without a start of runs', () => {
    expect(resistanceParts(record([[null, 200]]), [], 250, 20)[0]).toMatchObject({ irreversible: null, cip: null, hydraulic: null });
    expect(resistanceParts(record([[null, null]]), [], 250, 20)).toEqual([]);
  });
});

describe('the irreversible fouling index', () => {
  /** Start of runs from 0.24 to 0.30 bar at constant flux over 10,080 L/m2: slope 0.25 / 10,080 = 2.480e-5 m2/L, reckoned by hand. */
  test('is the slope of the start of runs over the water filtered', () => {
    const days = Array.from({ length: 8 }, (_, at) => ({ day: day(at), startLmhBar: 250 / (1 + (0.25 * at) / 7), meanLmhBar: null, loadM3PerM2: 1.44 }));
    const index = irreversibleFoulingIndex(days, []);
    expect(index).toMatchObject({ kind: 'index', days: 8 });
    expect(index.kind === 'index' && index.perM2L / (2.4802e-5 / (1 - 2.4802e-5 * 720))).toBeCloseTo(1, 3);
    expect(index.kind === 'index' && index.standardError).toBeLessThan(1e-9);
  });

  test('begins anew with each chemical clean', () => {
    const days = record(Array.from({ length: 20 }, (_, at) => [at < 10 ? 250 - 8 * at : 250, null] as const));
    const index = irreversibleFoulingIndex(days, [{ kind: 'CEB', day: day(9) }]);
    expect(index.kind === 'index' && Math.abs(index.perM2L)).toBeLessThan(1e-12);
  });

  test('goes through maintenance cleans that come every day, back to the recovery clean', () => {
    const days = record(Array.from({ length: 20 }, (_, at) => [250 / (1 + 0.01 * at), null] as const));
    const daily = Array.from({ length: 20 }, (_, at) => ({ kind: 'CEB' as const, day: day(at) }));
    const index = irreversibleFoulingIndex(days, [{ kind: 'CIP', day: day(4) }, ...daily]);
    expect(index).toMatchObject({ kind: 'index', throughMaintenance: true, fromDay: day(5), days: 15 });
    // By hand: the pressure rises by 0.01 of the first day's in 1,440 L/m2, from 1.05 of it on at the middle of the sixth.
    expect(index.kind === 'index' && index.perM2L / (0.01 / 1440 / (1.05 - 0.005))).toBeCloseTo(1, 6);
  });

  test('says so where there is too little', () => {
    expect(
      irreversibleFoulingIndex(
        record([
          [200, 190],
          [198, 188],
        ]),
        [],
      ),
    ).toEqual({ kind: 'too-little-data', have: 2, need: 5 });
    expect(irreversibleFoulingIndex(record(repeated(9, [200, 190]), 0), [])).toMatchObject({ kind: 'too-little-data' });
  });
});

describe('what a clean gave back', () => {
  const days = record([...repeated(6, [180, null]), [200, null], ...repeated(6, [230, null])]);

  test('is the difference between the days before and after it', () => {
    expect(cleanRecoveries(days, [{ kind: 'CIP', day: day(6) }], 250)[0]).toMatchObject({ beforeLmhBar: 180, afterLmhBar: 230, ofNew: 0.92, ofLast: null });
  });

  test('is not known where nobody measured within a week', () => {
    expect(cleanRecoveries(days, [{ kind: 'CIP', day: day(40) }], 250)[0]).toMatchObject({ beforeLmhBar: null, afterLmhBar: null, ofNew: null });
  });

  test('declines in words, from three cleans on', () => {
    const falling = Array.from({ length: 4 }, (_, at) => ({
      kind: 'CIP' as const,
      day: day(90 * at),
      beforeLmhBar: 150,
      afterLmhBar: 240 - 10 * at,
      ofNew: 0.96 - 0.04 * at,
      ofLast: null,
    }));
    expect(declineInWords(falling)).toMatch(/less and less: 96 % of new after the first, 84 % after the last, 16\.2 points a year/);
    expect(declineInWords(falling.map((one) => ({ ...one, ofNew: 0.95 })))).toMatch(/about the same/);
    expect(declineInWords(falling.slice(0, 2))).toBeNull();
  });
});

describe('what a membrane is compared with', () => {
  const of = (permeabilityLmhBar: number, assumed: boolean) => ({
    kind: 'baseline' as const,
    permeabilityLmhBar,
    referenceC: 20,
    from: 'last CIP' as const,
    assumed,
    day: '2026-03-02',
  });
  const unknown = { kind: 'too-little-data' as const, have: 0, need: 7 };

  test('is said of all three, with what is assumed', () => {
    expect(baselinesInWords({ commissioning: of(250, true), lastCip: of(240, false), lastCeb: unknown })).toBe(
      'Compared with: 250 L/m2 h bar when new (assumed, 2 Mar 2026), 240 L/m2 h bar after the last recovery clean (2 Mar 2026), not known after the last chemical clean of either kind.',
    );
    expect(baselinesInWords({ commissioning: unknown, lastCip: unknown, lastCeb: unknown })).toBeNull();
  });
});

describe('a clean that nobody wrote down', () => {
  const scatter = [1, -1.5, 0.5, 1.2, -0.8, 0, 0.7, -0.4];
  const level = (at: number, value: number) => [value + (scatter[at % scatter.length] ?? 0), null] as const;
  const days = record(Array.from({ length: 40 }, (_, at) => level(at, at < 20 ? 200 - at : 215)));

  test('is inferred from a step up that stays', () => {
    expect(inferredCleans(days, [])).toHaveLength(1);
    expect(inferredCleans(days, [])[0]?.day).toBe(day(20));
  });

  test('is not inferred where a clean on record explains it', () => {
    expect(inferredCleans(days, [{ kind: 'CIP', day: day(19) }])).toEqual([]);
  });

  test('is not inferred from one high day, or from scatter', () => {
    expect(inferredCleans(record(Array.from({ length: 40 }, (_, at) => level(at, at === 20 ? 260 : 200))), [])).toEqual([]);
    expect(inferredCleans(record(Array.from({ length: 40 }, (_, at) => [200 + 40 * Math.sin(at * 2.4), null] as const)), [])).toEqual([]);
  });
});
