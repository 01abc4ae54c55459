import { describe, expect, test } from '@jest/globals';
import { neededOver, needsOf, type TankConsumer } from './needs.js';

const DAYS = ['2025-11-01', '2025-11-02', '2025-11-03'];
const skid = (name: string, filtrateM3: number, doseMgL: number): TankConsumer => ({
  name,
  recipe: { doseMgL, litresPerCeb: 3, litresPerCip: null },
  days: DAYS.map((day, at) => ({ day, filtrateM3, cebs: at === 1 ? 1 : 0, cips: 0 })),
  litresPerDay: null,
  sdPerDay: null,
});
const bay: TankConsumer = { name: 'Wash bay', recipe: { doseMgL: null, litresPerCeb: null, litresPerCip: null }, days: [], litresPerDay: 2, sdPerDay: 1 };

describe('what a tank should give', () => {
  test('is the sum over everyone who draws from it', () => {
    const needs = needsOf([skid('UF 1', 500, 2), skid('UF 2', 250, 2), bay], DAYS, () => 125);
    expect([...(needs?.byDay.values() ?? [])]).toEqual([14, 20, 14]);
    expect(needs?.consumers).toEqual([
      { name: 'UF 1', litresPerDay: 9 },
      { name: 'UF 2', litresPerDay: 5 },
      { name: 'Wash bay', litresPerDay: 2 },
    ]);
    expect(needs?.outsideSdL).toBe(1);
  });

  test('leaves out the days of which nobody knows, and counts every day of a tank without skids', () => {
    expect([...(needsOf([skid('UF 1', 500, 2), bay], ['2025-10-31', ...DAYS], () => 125)?.byDay.keys() ?? [])]).toEqual(DAYS);
    expect([...(needsOf([bay], DAYS, () => null)?.byDay.values() ?? [])]).toEqual([2, 2, 2]);
  });

  test('is not known without the strength of a dosed product', () => {
    expect(needsOf([skid('UF 1', 500, 2)], DAYS, () => null)).toBeNull();
  });

  test('over a span counts parts of days, and too many silent ones leave it unknown', () => {
    const byDay = new Map(DAYS.map((day) => [day, 10]));
    expect(
      neededOver(
        byDay,
        DAYS.map((day) => ({ day, share: 0.5 })),
      ),
    ).toBe(15);
    const span = (silent: number) => [...DAYS, ...Array.from({ length: silent }, (_, at) => `2025-12-0${at + 1}`)].map((day) => ({ day, share: 1 }));
    expect(neededOver(byDay, span(0))).toBe(30);
    expect(neededOver(byDay, span(2))).toBeNull();
    expect(neededOver(byDay, [])).toBe(0);
  });
});
