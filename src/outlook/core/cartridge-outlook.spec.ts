import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { dayPlus } from '../../shared/day.js';
import { type CartridgeInput, cartridgeOutlook } from './cartridge-outlook.js';
import { DAYS_AHEAD } from './horizon.js';

const FITTED = '2025-10-14';
const DAILY_M3 = 240;
const lives = (...loads: number[]) => loads.map((loadM3) => ({ loadM3, ended: 'limit' as const }));

/** A set that climbs from 35 kPa as a power of its load and would meet 150 kPa at `lifeM3`. */
function set(days: number, given: Partial<CartridgeInput> & { readonly lifeM3?: number; readonly exponent?: number } = {}): CartridgeInput {
  const { lifeM3 = 12_000, exponent = 3, ...rest } = given;
  const points = Array.from({ length: days }, (_, i) => {
    const loadM3 = DAILY_M3 * (i + 1);
    return { day: dayPlus(FITTED, i), loadM3, dpKpa: 35 + 115 * (loadM3 / lifeM3) ** exponent };
  });
  return {
    points,
    limitKpa: 150,
    earlierLives: [],
    dailyLoad: { meanM3: DAILY_M3, sdM3: 30, days: 28 },
    origin: new Date(`${dayPlus(FITTED, Math.max(0, days - 1))}T12:00:00Z`),
    timeZone: 'UTC',
    ...rest,
  };
}

function forecastOf(input: CartridgeInput) {
  const outlook = cartridgeOutlook(input);
  if (outlook.kind !== 'outlook') throw new Error(outlook.reason.text);
  return outlook;
}

describe('the outlook of a set of cartridges', () => {
  test('says in one sentence what was seen and when the limit is likely reached', () => {
    const outlook = forecastOf(set(42, { earlierLives: lives(11_000, 12_000, 13_000) }));
    expect(outlook.reason.text).toMatch(
      /^Cartridge pressure drop has risen from 35(\.\d)? to 9\d(\.\d)? kPa over 41 days and 10,100 m3; at 240 m3 a day and going by 3 earlier sets the limit of 150 kPa is likely reached between .* Dec\.$/,
    );
    expect(outlook).toMatchObject({ originDay: '2025-11-24', dataUsed: { firstDay: FITTED, points: 42, earlierLives: 3, dailyLoad: 240, loadUnit: 'm3' } });
    expect(outlook.reason.basis).toBe('signal and earlier lives');
  });

  test('spans the true day, and closes as the limit comes near', () => {
    const earlier = { earlierLives: lives(11_000, 12_000, 13_000) };
    const widths = [15, 30, 45].map((days) => {
      const { p10Days, p90Days } = forecastOf(set(days, earlier));
      expect(p10Days ?? NaN).toBeLessThan(50 - days);
      expect(p90Days ?? NaN).toBeGreaterThan(50 - days);
      return (p90Days ?? NaN) - (p10Days ?? NaN);
    });
    expect(widths[1] ?? NaN).toBeLessThan(widths[0] ?? NaN);
    expect(widths[2] ?? NaN).toBeLessThan(widths[1] ?? NaN);
  });

  test('rests on earlier sets alone while there is no rise, a set just fitted included', () => {
    const outlook = forecastOf(set(8, { earlierLives: lives(11_000, 12_000, 13_000) }));
    expect(outlook.reason.basis).toBe('earlier lives');
    expect(outlook.reason.text).toMatch(/no clear rise over 7 days/);
    const fresh = forecastOf(set(0, { earlierLives: lives(11_000, 12_000, 13_000) }));
    expect(Math.abs((fresh.p50Days ?? NaN) - 50)).toBeLessThan(5);
  });

  test('says that it is too early, and what it takes, with no earlier set and no rise', () => {
    expect(cartridgeOutlook(set(8))).toMatchObject({ kind: 'too-little-data', need: 'a clear rise, or the life of an earlier set', reason: { basis: 'none' } });
    expect(cartridgeOutlook(set(0))).toMatchObject({ kind: 'too-little-data' });
    expect(forecastOf(set(42)).reason.basis).toBe('signal');
  });

  test('gives no day where no water runs', () => {
    for (const dailyLoad of [
      { meanM3: 0, sdM3: 0, days: 28 },
      { meanM3: 240, sdM3: 30, days: 0 },
    ])
      expect(cartridgeOutlook(set(42, { dailyLoad }))).toMatchObject({ kind: 'too-little-data', need: 'days on which water runs' });
  });

  test('says since when the limit is met, and is not fooled by one wrong reading', () => {
    expect(cartridgeOutlook(set(55))).toMatchObject({ kind: 'limit-met', metOn: dayPlus(FITTED, 50), reason: { limit: 150 } });
    const wrong = set(42);
    expect(cartridgeOutlook({ ...wrong, points: wrong.points.map((point, i) => (i === 41 ? { ...point, dpKpa: 400 } : point)) }).kind).toBe('outlook');
  });

  test('counts water that ran on after the last reading', () => {
    const known = set(42, { earlierLives: lives(12_000) });
    const later = forecastOf({ ...known, loadNowM3: 10_080 + 5 * DAILY_M3 });
    expect(later.p50Days ?? NaN).toBeLessThan((forecastOf(known).p50Days ?? NaN) - 2);
  });

  test('knows the day at the site and not the day of the server', () => {
    expect(cartridgeOutlook(set(42, { origin: new Date('2025-11-24T20:00:00Z'), timeZone: 'Asia/Kolkata' })).originDay).toBe('2025-11-25');
  });

  test('draws a convex course from the present value that crosses the limit on its own early, middle and late day', () => {
    const { path, p10Days, p50Days, p90Days } = forecastOf(set(42, { earlierLives: lives(11_000, 12_000, 13_000) }));
    expect(path[0]).toMatchObject({ dayAhead: 0 });
    for (const { low, mid, high } of path) expect(low <= mid && mid <= high && high <= 180).toBe(true);
    for (const [end, days] of [
      ['high', p10Days],
      ['mid', p50Days],
      ['low', p90Days],
    ] as const) {
      const after = path.find(({ dayAhead }) => dayAhead >= (days ?? NaN));
      const before = path.findLast(({ dayAhead }) => dayAhead <= (days ?? NaN));
      expect(after?.[end] ?? NaN).toBeGreaterThanOrEqual(150 - 1e-6);
      expect(before?.[end] ?? NaN).toBeLessThanOrEqual(150 + 1e-6);
    }
  });

  const anySet = fc
    .record({
      days: fc.integer({ min: 20, max: 45 }),
      lifeM3: fc.double({ min: 11_200, max: 40_000, noNaN: true }),
      exponent: fc.double({ min: 1, max: 8, noNaN: true }),
      earlier: fc.array(fc.double({ min: 5_000, max: 30_000, noNaN: true }), { minLength: 1, maxLength: 4 }),
    })
    .map(({ days, lifeM3, exponent, earlier }) => set(days, { lifeM3, exponent, earlierLives: lives(...earlier) }));

  test('is a distribution: between 0 and 1, never falling, and its quantiles agree with it', () => {
    fc.assert(
      fc.property(anySet, (input) => {
        const { metByDay, shareBeyond, p50Days } = forecastOf(input);
        expect(metByDay).toHaveLength(DAYS_AHEAD.length);
        for (const [i, share] of metByDay.entries()) expect(share >= (metByDay[i - 1] ?? 0) - 1e-12 && share <= 1).toBe(true);
        expect(shareBeyond).toBeCloseTo(1 - (metByDay.at(-1) ?? NaN), 12);
        for (const [i, ahead] of DAYS_AHEAD.entries()) expect((metByDay[i] ?? NaN) >= 0.5).toBe(p50Days !== null && ahead >= p50Days);
      }),
      { numRuns: 25 },
    );
  });

  test('more water a day never makes it later', () => {
    fc.assert(
      fc.property(anySet, fc.double({ min: 1, max: 3, noNaN: true }), (input, times) => {
        const more = forecastOf({ ...input, dailyLoad: { ...input.dailyLoad, meanM3: input.dailyLoad.meanM3 * times } });
        for (const [i, share] of forecastOf(input).metByDay.entries()) expect(more.metByDay[i]).toBeGreaterThanOrEqual(share - 1e-12);
      }),
      { numRuns: 25 },
    );
  });

  test('the unit of pressure and of load changes nothing but the drawing', () => {
    fc.assert(
      fc.property(anySet, (input) => {
        const [psi, gallons] = [1 / 6.894757, 264.172];
        const scaled = forecastOf({
          ...input,
          points: input.points.map(({ day, loadM3, dpKpa }) => ({ day, loadM3: loadM3 * gallons, dpKpa: dpKpa * psi })),
          limitKpa: input.limitKpa * psi,
          earlierLives: input.earlierLives.map((life) => ({ ...life, loadM3: life.loadM3 * gallons })),
          dailyLoad: { ...input.dailyLoad, meanM3: input.dailyLoad.meanM3 * gallons, sdM3: input.dailyLoad.sdM3 * gallons },
        });
        for (const [i, share] of forecastOf(input).metByDay.entries()) expect(scaled.metByDay[i]).toBeCloseTo(share, 6);
        expect((scaled.path.at(-1)?.mid ?? NaN) / psi).toBeCloseTo(forecastOf(input).path.at(-1)?.mid ?? NaN, 3);
      }),
      { numRuns: 25 },
    );
  });
});
