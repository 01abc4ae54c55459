import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { DAYS_AHEAD } from '../horizon.js';
import { metByGrid } from './met-by-grid.js';
import { type WaitingCost, type WaitingFacts, waitingCost } from './waiting-cost.js';

const weibull = (scale: number, shape: number) => (days: number) => 1 - Math.exp(-((days / scale) ** shape));
const BARE = { ageDays: 0, dailyVolumeM3: null, excessKpa: null, lostShare: null } as const;
const priced = (renewal: number | null, unplanned: number | null) => ({ renewal, unplanned, energyKwh: null, waterM3: null });

function of(cost: WaitingCost) {
  if (cost.kind !== 'waiting') throw new Error(cost.missing.join());
  return cost;
}

describe('what waiting costs', () => {
  test('puts the change of a new part at the age of least cost', () => {
    // Weibull of shape 2.5, failure five times the planned change: 0.493047 of the scale, for a scale of 1,000 h (public reference example, solved with scipy); here a scale of 500 days.
    const { cheapestDay } = of(waitingCost({ ...BARE, met: weibull(500, 2.5), prices: priced(1, 4) }));
    expect(cheapestDay).toBe(Math.round(0.493047 * 500));
    // Life even from 0 to 40,000 km, change 100, failure 200: 40,000 (sqrt 3 - 1) km (Jardine and Tsang, chapter 2, problem 2); here a day is 100 km.
    const even = of(waitingCost({ ...BARE, met: (days) => Math.min(1, days / 400), prices: priced(100, 100) }));
    expect(even.cheapestDay).toBe(Math.round(400 * (Math.sqrt(3) - 1)));
  });

  test('names each term: life thrown away falls, risk rises, and their sum is least on the cheapest day', () => {
    const { points, cheapestDay, notCounted } = of(waitingCost({ ...BARE, ageDays: 40, met: weibull(60, 4), prices: priced(300, 900) }));
    const [first, best, late] = [points[0], points[cheapestDay], points[90]];
    expect(first?.lifeThrownAway).toBeGreaterThan(best?.lifeThrownAway ?? 0);
    expect(late?.risk).toBeGreaterThan(best?.risk ?? 0);
    expect(best?.extra).toBe(0);
    expect(late?.extra).toBeGreaterThan(first?.extra ?? 0);
    expect(notCounted).toEqual(['energy for higher pressure', 'lost production']);
  });

  test('counts energy and lost production where they have a price', () => {
    const facts: WaitingFacts = {
      met: (days) => (days >= 10 ? 1 : 0),
      ageDays: 50,
      prices: { renewal: 400, unplanned: 100, energyKwh: 0.2, waterM3: 1.5 },
      dailyVolumeM3: 216,
      excessKpa: () => 100,
      lostShare: 0.5,
    };
    const { points, notCounted } = of(waitingCost(facts));
    expect(notCounted).toEqual([]);
    // 216 m3 at 100 kPa are 10 kWh a day at an efficiency of 0.6.
    expect(points[5]?.energy).toBeCloseTo(5 * 10 * 0.2, 9);
    expect(points[5]?.production).toBe(0);
    expect((points[30]?.production ?? 0) - (points[20]?.production ?? 0)).toBeCloseTo(10 * 216 * 0.5 * 1.5, 6);
  });

  test('of a limit that is met already says that each day costs production and energy, and today is the cheapest', () => {
    const met = metByGrid([]);
    const { points, cheapestDay } = of(
      waitingCost({ ...BARE, ageDays: 80, met, prices: { ...priced(400, 100), waterM3: 2 }, dailyVolumeM3: 100, lostShare: 0.1 }),
    );
    expect(cheapestDay).toBe(0);
    expect(points[7]?.extra).toBeCloseTo(7 * 100 * 0.1 * 2, 6);
  });

  test('says which prices are missing instead of an answer', () => {
    expect(waitingCost({ ...BARE, met: () => 0, prices: priced(null, null) })).toEqual({
      kind: 'prices-missing',
      missing: ['what the renewal costs', 'what it costs more to come unplanned'],
    });
    expect(waitingCost({ ...BARE, met: () => 0, prices: priced(0, 10) })).toEqual({ kind: 'prices-missing', missing: ['what the renewal costs'] });
  });

  test('is never negative nor without a number, whatever the forecast and the prices', () => {
    const sorted = fc
      .array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: DAYS_AHEAD.length, maxLength: DAYS_AHEAD.length })
      .map((all) => all.sort((a, b) => a - b));
    const money = fc.double({ min: 0.01, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(sorted, money, money, fc.double({ min: 0, max: 4000, noNaN: true }), (metByDay, renewal, unplanned, ageDays) => {
        const { points, cheapestDay } = of(waitingCost({ ...BARE, ageDays, met: metByGrid(metByDay), prices: priced(renewal, unplanned) }));
        expect(points.every(({ extra, risk, lifeThrownAway }) => extra >= 0 && risk >= 0 && lifeThrownAway >= 0)).toBe(true);
        expect(points[cheapestDay]?.extra).toBe(0);
      }),
      { numRuns: 40 },
    );
  });

  test('is the same in any currency', () => {
    const met = weibull(200, 3);
    const [one, other] = [1, 7.5].map((rate) => of(waitingCost({ ...BARE, ageDays: 30, met, prices: priced(300 * rate, 700 * rate) })));
    expect(other?.cheapestDay).toBe(one?.cheapestDay);
    expect(other?.points[0]?.extra).toBeCloseTo(7.5 * (one?.points[0]?.extra ?? 0), 6);
  });
});

describe('the stored grid of a forecast', () => {
  test('is read between its points by a curve that never falls', () => {
    const grid = DAYS_AHEAD.map(weibull(90, 3));
    const met = metByGrid(grid);
    for (let day = 1; day <= 730; day++) expect(met(day)).toBeGreaterThanOrEqual(met(day - 1));
    for (const [at, day] of DAYS_AHEAD.entries()) expect(met(day)).toBeCloseTo(grid[at] ?? Number.NaN, 12);
    expect(met(75)).toBeCloseTo(weibull(90, 3)(75), 1);
    expect(met(5000)).toBe(grid.at(-1));
  });
});
