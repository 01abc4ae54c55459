import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { dayPlus, daysBetween } from '../../../shared/day.js';
import { DAYS_AHEAD } from '../horizon.js';
import { learnLevels } from './level-law.js';
import type { LevelRun } from './level-point.js';
import { EPOCH, fluxSteps, levelRuns } from './level-runs.js';
import { type MembraneInput, membraneOutlook } from './membrane-outlook.js';
import { pastChanges } from './past-changes.js';

const CLEANED = '2025-08-01';

interface Shape {
  readonly declinePerDay?: number;
  readonly ripple?: number;
  readonly unit?: string;
}

/** Permeability after a recovery clean that falls by `declinePerDay` of itself, with a ripple of a few days' period, at 1.2 m3/m2 a day. */
const runOf = (days: number, { declinePerDay = 0.002, ripple = 0.01, unit = 'a' }: Shape = {}): LevelRun => ({
  unit,
  points: Array.from({ length: days }, (_, i) => ({
    dayNo: daysBetween(EPOCH, CLEANED) + i,
    clock: 1.2 * (i + 1),
    value: 200 * Math.exp(-declinePerDay * i) * (1 + ripple * Math.sin(i * 2.4)),
  })),
});

const membranes = (days: number, { declinePerDay = 0.002, ripple = 0.01, ...given }: Partial<MembraneInput> & Shape = {}): MembraneInput => ({
  run: runOf(days, { declinePerDay, ripple }),
  limitLmhBar: 140,
  dailyLoad: { meanM3PerM2: 1.2, days: 28 },
  own: [],
  fleet: null,
  origin: new Date(`${dayPlus(CLEANED, Math.max(0, days - 1))}T12:00:00Z`),
  timeZone: 'UTC',
  ...given,
});

function forecastOf(input: MembraneInput) {
  const outlook = membraneOutlook(input);
  if (outlook.kind !== 'outlook') throw new Error(outlook.reason.text);
  return outlook;
}

describe('the outlook of the permeability of membranes', () => {
  test('says in one sentence how it has fallen and when the limit is likely reached', () => {
    const outlook = forecastOf(membranes(90, { declinePerDay: 0.003 }));
    expect(outlook.reason.text).toMatch(
      /^Permeability has come from 200 to \d+ L\/m2 h bar over 89 days since the last recovery clean; at the load of recent weeks the limit of 140 L\/m2 h bar is /,
    );
    expect(outlook).toMatchObject({ originDay: '2025-10-29', reason: { basis: 'signal' }, dataUsed: { points: 90, loadUnit: 'm3/m2' } });
  });

  test('with nothing to learn from it believes half of the decline', () => {
    const carriedOn = Math.log(200 / 140) / 0.003 - 79;
    const { p50Days } = forecastOf(membranes(80, { declinePerDay: 0.003 }));
    expect(Math.abs((p50Days ?? NaN) / (2 * carriedOn) - 1)).toBeLessThan(0.2);
  });

  test('a fleet whose declines went on brings the limit nearer, and is named', () => {
    const runs = [0.002, 0.003, 0.004].map((declinePerDay, at) => runOf(150, { declinePerDay, unit: `other ${at}` }));
    const fleet = { law: learnLevels(runs.flatMap((run) => pastChanges(run, [7, 14, 30, 60, 90]))), runs: 3 };
    const asked = membranes(80, { declinePerDay: 0.003 });
    const [taught, alone] = [forecastOf({ ...asked, fleet }), forecastOf(asked)];
    expect(taught.p50Days ?? Infinity).toBeLessThan(0.8 * (alone.p50Days ?? Infinity));
    expect(taught).toMatchObject({ reason: { basis: 'signal and earlier lives' }, dataUsed: { earlierLives: 3 } });
    expect(taught.reason.text).toMatch(/going by earlier runs between cleans/);
  });

  test('a level that holds is an outlook too: far off, and said so; a rise is not carried on', () => {
    const outlook = forecastOf(membranes(90, { declinePerDay: 0, ripple: 0.02 }));
    expect(outlook.reason.text).toMatch(/no clear decline over the last 60 days/);
    expect(outlook.metByDay[DAYS_AHEAD.indexOf(90)]).toBeLessThan(0.01);
    const { path } = forecastOf(membranes(60, { declinePerDay: -0.002 }));
    for (const { mid } of path) expect(mid).toBeLessThanOrEqual((path[0]?.mid ?? NaN) + 1e-9);
  });

  test('says what it takes where there is too little, and that nothing runs', () => {
    expect(membraneOutlook(membranes(9))).toMatchObject({ kind: 'too-little-data', need: '10 daily values over two weeks, or 4 over three' });
    expect(membraneOutlook(membranes(0))).toMatchObject({ kind: 'too-little-data', reason: { lastValue: null } });
    expect(membraneOutlook(membranes(60, { dailyLoad: { meanM3PerM2: 0, days: 28 } }))).toMatchObject({ need: 'days on which water runs' });
  });

  test('says since when the limit is met', () => {
    expect(membraneOutlook(membranes(100, { declinePerDay: 0.004, ripple: 0 }))).toMatchObject({ kind: 'limit-met', metOn: dayPlus(CLEANED, 91) });
  });

  const anyRun = fc
    .record({
      days: fc.integer({ min: 20, max: 70 }),
      declinePerDay: fc.double({ min: -0.001, max: 0.004, noNaN: true }),
      ripple: fc.double({ min: 0, max: 0.03, noNaN: true }),
    })
    .map(({ days, ...shape }) => membranes(days, shape));

  test('is a distribution: between 0 and 1, never falling, its quantiles agree with it, and more water a day never makes it later', () => {
    fc.assert(
      fc.property(anyRun, fc.double({ min: 1, max: 3, noNaN: true }), (input, times) => {
        const { metByDay, p10Days, path } = forecastOf(input);
        for (const [i, share] of metByDay.entries()) expect(share >= (metByDay[i - 1] ?? 0) - 1e-12 && share <= 1).toBe(true);
        for (const [i, ahead] of DAYS_AHEAD.entries()) expect((metByDay[i] ?? NaN) >= 0.1).toBe(p10Days !== null && ahead >= p10Days);
        for (const { low, mid, high } of path) expect(0 < low && low <= mid && mid <= high).toBe(true);
        if (path[0]?.mid === path[1]?.mid) return; // no decline: the load brings nothing nearer
        const more = forecastOf({ ...input, dailyLoad: { ...input.dailyLoad, meanM3PerM2: 1.2 * times } });
        for (const [i, share] of metByDay.entries()) expect(more.metByDay[i]).toBeGreaterThanOrEqual(share - 1e-9);
      }),
      { numRuns: 15 },
    );
  });

  test('the unit of permeability and of load changes nothing', () => {
    fc.assert(
      fc.property(anyRun, (input) => {
        const [gfdPsi, gallonsPerFt2] = [1 / 24.62, 24.54];
        const points = input.run.points.map(({ dayNo, clock, value }) => ({ dayNo, clock: clock * gallonsPerFt2, value: value * gfdPsi }));
        const dailyLoad = { meanM3PerM2: 1.2 * gallonsPerFt2, days: 28 };
        const scaled = forecastOf({ ...input, run: { unit: 'a', points }, limitLmhBar: input.limitLmhBar * gfdPsi, dailyLoad });
        for (const [i, share] of forecastOf(input).metByDay.entries()) expect(scaled.metByDay[i]).toBeCloseTo(share, 6);
      }),
      { numRuns: 10 },
    );
  });
});

describe('the runs of a record', () => {
  const days = (count: number, flux: (at: number) => number | null = () => 60) =>
    Array.from({ length: count }, (_, at) => ({ day: dayPlus(CLEANED, at), filtrateM3: 10, permeability: 200, fluxLmh: flux(at) }));

  test('begin the day after a recovery clean, and with the day of another change; the clock begins anew', () => {
    const runs = levelRuns('a', days(30), { cleans: [dayPlus(CLEANED, 10)], cuts: [dayPlus(CLEANED, 20)], areaM2: 10 });
    expect(runs.map(({ points }) => [points.length, points[0]?.clock, points.at(-1)?.clock])).toEqual([
      [10, 1, 10],
      [9, 1, 9],
      [10, 1, 10],
    ]);
    expect(levelRuns('a', days(5), { cleans: [dayPlus(CLEANED, 4)], cuts: [], areaM2: 10 }).at(-1)?.points).toEqual([]);
  });

  test('break where the flux changed to stay, and not on single days or by scatter', () => {
    expect(fluxSteps(days(40, (at) => (at < 20 ? 60 : 75) + Math.sin(at)))).toEqual([dayPlus(CLEANED, 20)]);
    expect(fluxSteps(days(40, (at) => (at === 20 || at === 21 ? 75 : 60)))).toEqual([]);
    expect(fluxSteps(days(40, (at) => 60 + 4 * Math.sin(at * 2.4)))).toEqual([]);
    expect(fluxSteps(days(40, (at) => (at % 3 === 0 ? null : 60)))).toEqual([]);
  });
});
