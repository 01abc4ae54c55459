import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { type CoverInput, coverOf } from './cover.js';
import { coverDays, drawnL } from './cover-days.js';
import { lossPerDay } from './hypochlorite-strength.js';

const NOW = new Date('2025-11-25T10:00:00Z');
const daysAgo = (days: number) => new Date(NOW.getTime() - days * 86_400_000);

const tank = (given: Partial<CoverInput> = {}): CoverInput => ({
  dip: { at: daysAgo(3), usableL: 200, strengthGL: 125, errorL: 4 },
  deliveredSinceL: 0,
  dailyUse: { meanL: 8, sdL: 1, days: 28 },
  storageC: 25,
  losesStrength: false,
  now: NOW,
  timeZone: 'UTC',
  ...given,
});

function cover(given: Partial<CoverInput> = {}) {
  const found = coverOf(tank(given));
  if (found.kind !== 'cover') throw new Error(found.reason);
  return found;
}
const width = ({ earlyDays, lateDays }: ReturnType<typeof cover>) => (lateDays ?? NaN) - (earlyDays ?? NaN);

describe('days of cover', () => {
  // Computed apart: 200 L at 8 L a day of 125 g/L at 25 °C (k C 0.005360 a day) last 23.5 days instead of 25.
  test('are fewer where the product loses strength', () => {
    expect(coverDays(200, 8, 0)).toBeCloseTo(25, 9);
    expect(coverDays(200, 8, lossPerDay(125, 25))).toBeCloseTo(23.5, 1);
    expect(drawnL(coverDays(200, 8, 0.00536) ?? NaN, 8, 0.00536)).toBeCloseTo(200, 9);
  });

  // Open course notes on days of supply: 880 units at 33 a day last 27 days (26.7).
  test('of 880 at 33 a day are 27', () => {
    expect(Math.ceil(coverDays(880, 33, 0) ?? NaN)).toBe(27);
  });

  test('have no end without use', () => {
    expect(coverDays(200, 0, 0)).toBeNull();
    expect(coverDays(-5, 8, 0)).toBe(0);
  });
});

describe('the cover of a tank', () => {
  test('counts from the dip, and says so in one sentence', () => {
    const found = cover();
    expect(found).toMatchObject({ volumeL: 176, dipAgeDays: 3, dailyUseL: 8, runOutOn: '2025-12-17', strengthGL: 125 });
    expect(found.likelyDays).toBeCloseTo(22, 9);
    expect(found.reason).toMatch(
      /^The dip of 22 Nov showed 200 L that can be used; at 8 L a day about 176 L are left today, which last \d+ to \d+ days, until between \d+ Dec and \d+ Dec\.$/,
    );
  });

  test('holds the likely day between the early and the late one', () => {
    const { earlyDays, likelyDays, lateDays } = cover();
    expect((earlyDays ?? NaN) < (likelyDays ?? NaN) && (likelyDays ?? NaN) < (lateDays ?? NaN)).toBe(true);
  });

  test('is shorter and weaker where hypochlorite ages', () => {
    const aged = cover({ losesStrength: true });
    expect(aged.likelyDays).toBeCloseTo(23.5 - 3, 1);
    expect(aged.strengthGL ?? NaN).toBeLessThan(125);
    expect(aged.reason).toMatch(/more as it loses strength/);
    expect(cover({ losesStrength: true, storageC: 35 }).likelyDays ?? NaN).toBeLessThan(aged.likelyDays ?? NaN);
    expect(cover({ losesStrength: true, storageC: null }).likelyDays ?? NaN).toBeGreaterThan(aged.likelyDays ?? NaN);
  });

  test('widens with the age of the dip, for the same litres by the book', () => {
    const widths = [0, 7, 20, 45].map((age) => width(cover({ dip: { at: daysAgo(age), usableL: 200 + 8 * age, strengthGL: null, errorL: 4 } })));
    for (const [i, wide] of widths.entries()) expect(wide).toBeGreaterThan(widths[i - 1] ?? 0);
  });

  test('counts what was poured in since', () => {
    const found = cover({ deliveredSinceL: 80 });
    expect(found.likelyDays).toBeCloseTo(32, 9);
    expect(found.reason).toMatch(/and 80 L were poured in since/);
  });

  test('asks for a dip where the book says empty, and where there was none', () => {
    expect(cover({ dip: { at: daysAgo(40), usableL: 200, strengthGL: null, errorL: 4 } })).toMatchObject({ volumeL: 0, likelyDays: 0, runOutOn: '2025-11-25' });
    expect(coverOf(tank({ dip: null }))).toMatchObject({ kind: 'too-little-data', need: 'a dip' });
    expect(coverOf(tank({ dailyUse: null }))).toMatchObject({ kind: 'too-little-data' });
    expect(coverOf(tank({ dailyUse: { meanL: 0, sdL: 0, days: 28 } }))).toMatchObject({ kind: 'too-little-data' });
  });

  test('beyond two years has no day', () => {
    expect(cover({ dailyUse: { meanL: 0.1, sdL: 0, days: 28 } })).toMatchObject({ likelyDays: null, runOutOn: null });
  });

  test('names the day at the site', () => {
    expect(cover({ timeZone: 'Pacific/Auckland', now: new Date('2025-11-25T18:00:00Z') }).runOutOn).toBe('2025-12-17');
  });

  test('more product never shortens it, more use never lengthens it', () => {
    const litres = fc.double({ min: 5, max: 500, noNaN: true });
    fc.assert(
      fc.property(litres, fc.double({ min: 0, max: 30, noNaN: true }), fc.double({ min: 2, max: 30, noNaN: true }), (usableL, age, meanL) => {
        const dip = { at: daysAgo(age), usableL, strengthGL: 125, errorL: 4 };
        const dailyUse = { meanL, sdL: 1, days: 28 };
        const base = cover({ dip, dailyUse, losesStrength: true });
        for (const end of ['earlyDays', 'likelyDays', 'lateDays'] as const) {
          expect(cover({ dip: { ...dip, usableL: usableL + 20 }, dailyUse, losesStrength: true })[end] ?? 1e9).toBeGreaterThanOrEqual(
            (base[end] ?? 1e9) - 1e-9,
          );
        }
        expect(cover({ dip, dailyUse: { ...dailyUse, meanL: meanL + 1 }, losesStrength: true }).likelyDays ?? 1e9).toBeLessThanOrEqual(
          (base.likelyDays ?? 1e9) + 1e-9,
        );
      }),
      { numRuns: 40 },
    );
  });
});
