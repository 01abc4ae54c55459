import { describe, expect, test } from '@jest/globals';
import { balanceOf } from './balance.js';
import { dailyUseOf } from './daily-use.js';
import { expectedUse, type UseDay } from './expected-use.js';
import { strengthAfterGL } from './hypochlorite-strength.js';

const days = (count: number, given: Partial<UseDay> = {}): UseDay[] =>
  Array.from({ length: count }, (_, i) => ({ day: `2025-11-${String(i + 1).padStart(2, '0')}`, filtrateM3: 500, cebs: 0, cips: 0, ...given }));
const recipe = { doseMgL: 2, litresPerCeb: 3, litresPerCip: 40 };

describe('the use that is to be expected', () => {
  test('is dose times filtrate over strength, and the litres of each clean', () => {
    expect(expectedUse(days(10, { cebs: 1 }), recipe, () => 125)).toMatchObject({ byDose: 80, byCebs: 30, byCips: 0, litres: 110 });
    expect(expectedUse(days(1, { cips: 1 }), recipe, () => 125)).toMatchObject({ litres: 48, daily: [48] });
  });

  // 1 kg a day of chlorine from 125 g/L: 240 L in 30 days without loss, 259.3 L at 25 °C; computed apart by the integral, here day by day.
  test('rises as the product loses strength', () => {
    const kilogram = { ...recipe, doseMgL: 2 };
    const aged = expectedUse(days(30), kilogram, (day) => strengthAfterGL(125, Number(day.slice(8)) - 0.5, 25));
    expect(expectedUse(days(30), kilogram, () => 125)?.litres).toBeCloseTo(240, 9);
    expect(aged?.litres).toBeCloseTo(259.3, 1);
  });

  test('needs no strength for cleans alone, and is not known where a dose has none', () => {
    expect(expectedUse(days(2, { cebs: 1 }), { ...recipe, doseMgL: null }, () => null)?.litres).toBe(6);
    expect(expectedUse(days(2), recipe, () => null)).toBeNull();
  });
});

describe('the balance between two dips', () => {
  const interval = { openingL: 300, closingL: 180, deliveredL: 0, expectedL: 118, dipErrorL: 3 };

  test('is observed less expected, with the error of two dips, the pump and the strength', () => {
    const balance = balanceOf(interval);
    expect(balance).toMatchObject({ observedL: 120, residualL: 2, verdict: 'as expected' });
    expect(balance.ratio).toBeCloseTo(120 / 118, 9);
    expect(balance.errorL).toBeCloseTo(Math.sqrt(2 * 9 + (0.05 * 118) ** 2 + (0.03 * 118) ** 2), 9);
    expect(balanceOf({ ...interval, closingL: 380, deliveredL: 200 })).toMatchObject({ observedL: 120 });
  });

  test('tells more and less than expected, beyond twice its error', () => {
    expect(balanceOf({ ...interval, closingL: 140 }).verdict).toBe('more than expected');
    expect(balanceOf({ ...interval, closingL: 220 }).verdict).toBe('less than expected');
    expect(balanceOf({ ...interval, closingL: 195 }).verdict).toBe('as expected');
  });

  test('sees that a delivery is missing where the level rose', () => {
    expect(balanceOf({ ...interval, closingL: 400 }).verdict).toBe('dips do not fit');
  });

  test('has no ratio where nothing was expected', () => {
    expect(balanceOf({ ...interval, expectedL: 0 }).ratio).toBeNull();
  });
});

describe('the daily use to reckon with', () => {
  test('follows a balance that is sure, and hardly one that is not', () => {
    const more = (dipErrorL: number) => balanceOf({ openingL: 300, closingL: 150, deliveredL: 0, expectedL: 100, dipErrorL });
    expect(dailyUseOf([10, 10, 10], more(1))?.meanL).toBeGreaterThan(14);
    expect(dailyUseOf([10, 10, 10], more(80))?.meanL).toBeLessThan(11);
    expect(dailyUseOf([10, 10, 10], null)).toEqual({ meanL: 10, sdL: 0, days: 3 });
  });

  test('is not moved by dips that do not fit, and is none without days', () => {
    const wrong = balanceOf({ openingL: 100, closingL: 300, deliveredL: 0, expectedL: 100, dipErrorL: 2 });
    expect(dailyUseOf([10, 12], wrong)?.meanL).toBe(11);
    expect(dailyUseOf([], null)).toBeNull();
  });
});
