import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { dayPlus } from '../../shared/day.js';
import { DAYS_AHEAD } from './horizon.js';
import { type PermeabilityInput, permeabilityOutlook } from './permeability-outlook.js';

const CLEANED = '2025-08-01';

/** Permeability after a recovery clean that falls by `declinePerDay` of itself, with a ripple of a few days' period, at 1.2 m3/m2 a day. */
function membranes(days: number, given: Partial<PermeabilityInput> & { readonly declinePerDay?: number; readonly ripple?: number } = {}): PermeabilityInput {
  const { declinePerDay = 0.002, ripple = 0.01, ...rest } = given;
  return {
    points: Array.from({ length: days }, (_, i) => ({
      day: dayPlus(CLEANED, i),
      loadM3PerM2: 1.2 * (i + 1),
      permeability: 200 * Math.exp(-declinePerDay * i) * (1 + ripple * Math.sin(i * 2.4)),
    })),
    limitLmhBar: 140,
    dailyLoad: { meanM3PerM2: 1.2, sdM3PerM2: 0.1, days: 28 },
    earlierDeclines: [],
    origin: new Date(`${dayPlus(CLEANED, Math.max(0, days - 1))}T12:00:00Z`),
    timeZone: 'UTC',
    ...rest,
  };
}

function forecastOf(input: PermeabilityInput) {
  const outlook = permeabilityOutlook(input);
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

  test('takes the day on which the recent decline would meet the limit as the early end, and half its speed as the middle', () => {
    const carriedOn = Math.log(200 / 140) / 0.003 - 79;
    const { p10Days, p50Days } = forecastOf(membranes(80, { declinePerDay: 0.003 }));
    expect(Math.abs((p10Days ?? NaN) / carriedOn - 1)).toBeLessThan(0.1);
    expect(Math.abs((p50Days ?? NaN) / (2 * carriedOn) - 1)).toBeLessThan(0.1);
  });

  test('a level that holds is an outlook too: far off, and said so', () => {
    const outlook = forecastOf(membranes(90, { declinePerDay: 0, ripple: 0.02 }));
    expect(outlook.reason.text).toMatch(/no clear decline over the last 60 days/);
    expect(outlook.metByDay[DAYS_AHEAD.indexOf(90)]).toBeLessThan(0.01);
    expect(outlook.shareBeyond).toBeGreaterThan(0.1);
    const near = forecastOf(membranes(90, { declinePerDay: 0, ripple: 0.02, limitLmhBar: 190 }));
    expect(near.metByDay[DAYS_AHEAD.indexOf(90)]).toBeGreaterThan(0.05);
  });

  test('a rise counts as none and is not carried on', () => {
    const { path } = forecastOf(membranes(60, { declinePerDay: -0.002 }));
    for (const { mid } of path) expect(mid).toBeLessThanOrEqual((path[0]?.mid ?? NaN) + 1e-9);
  });

  test('earlier runs between cleans bring the limit nearer where this one has only just begun to fall', () => {
    const young = membranes(30, { declinePerDay: 0.0005 });
    const informed = forecastOf({ ...young, earlierDeclines: [0.003, 0.0035, 0.004] });
    expect(informed.p50Days ?? Infinity).toBeLessThan(forecastOf(young).p50Days ?? Infinity);
    expect(informed.reason.text).toMatch(/going by earlier runs between cleans/);
  });

  test('says what it takes where there is too little, and that nothing runs', () => {
    expect(permeabilityOutlook(membranes(9))).toMatchObject({ kind: 'too-little-data', need: '10 daily values over at least 14 of the last 60 days' });
    expect(permeabilityOutlook(membranes(0))).toMatchObject({ kind: 'too-little-data', reason: { lastValue: null } });
    expect(permeabilityOutlook(membranes(60, { dailyLoad: { meanM3PerM2: 0, sdM3PerM2: 0, days: 28 } }))).toMatchObject({ need: 'days on which water runs' });
  });

  test('says since when the limit is met', () => {
    expect(permeabilityOutlook(membranes(100, { declinePerDay: 0.004, ripple: 0 }))).toMatchObject({ kind: 'limit-met', metOn: dayPlus(CLEANED, 91) });
  });

  const anyRun = fc
    .record({
      days: fc.integer({ min: 20, max: 70 }),
      declinePerDay: fc.double({ min: -0.001, max: 0.004, noNaN: true }),
      ripple: fc.double({ min: 0, max: 0.03, noNaN: true }),
    })
    .map(({ days, ...shape }) => membranes(days, shape));

  test('is a distribution: between 0 and 1, never falling, and its quantiles agree with it', () => {
    fc.assert(
      fc.property(anyRun, (input) => {
        const { metByDay, p10Days, path } = forecastOf(input);
        for (const [i, share] of metByDay.entries()) expect(share >= (metByDay[i - 1] ?? 0) - 1e-12 && share <= 1).toBe(true);
        for (const [i, ahead] of DAYS_AHEAD.entries()) expect((metByDay[i] ?? NaN) >= 0.1).toBe(p10Days !== null && ahead >= p10Days);
        for (const { low, mid, high } of path) expect(0 < low && low <= mid && mid <= high).toBe(true);
      }),
      { numRuns: 15 },
    );
  });

  test('more water a day never makes it later', () => {
    fc.assert(
      fc.property(anyRun, fc.double({ min: 1, max: 3, noNaN: true }), (input, times) => {
        const more = forecastOf({ ...input, dailyLoad: { ...input.dailyLoad, meanM3PerM2: input.dailyLoad.meanM3PerM2 * times } });
        for (const [i, share] of forecastOf(input).metByDay.entries()) expect(more.metByDay[i]).toBeGreaterThanOrEqual(share - 1e-9);
      }),
      { numRuns: 15 },
    );
  });

  test('the unit of permeability and of load changes nothing', () => {
    fc.assert(
      fc.property(anyRun, (input) => {
        const [gfdPsi, gallonsPerFt2] = [1 / 24.62, 24.54];
        const scaled = forecastOf({
          ...input,
          points: input.points.map(({ day, loadM3PerM2, permeability }) => ({
            day,
            loadM3PerM2: loadM3PerM2 * gallonsPerFt2,
            permeability: permeability * gfdPsi,
          })),
          limitLmhBar: input.limitLmhBar * gfdPsi,
          dailyLoad: { ...input.dailyLoad, meanM3PerM2: input.dailyLoad.meanM3PerM2 * gallonsPerFt2, sdM3PerM2: input.dailyLoad.sdM3PerM2 * gallonsPerFt2 },
        });
        for (const [i, share] of forecastOf(input).metByDay.entries()) expect(scaled.metByDay[i]).toBeCloseTo(share, 6);
      }),
      { numRuns: 10 },
    );
  });
});
