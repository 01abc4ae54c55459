import { describe, expect, test } from '@jest/globals';
import { type DoseToSet, doseSetting } from './dose-setting.js';

const set = (given: Partial<DoseToSet>) => doseSetting({ doseMgL: 2, flowM3h: 20, strengthGL: 125, aged: null, pumpLh: null, ...given });

describe('the setting of a dosing pump', () => {
  // Computed apart: 20 m3/h at 2 mg/L of 125 g/L take 0.320 L/h; 25 m3/h at 3 mg/L of 141.6 g/L 0.530 L/h, 8.83 mL/min, 35.3 % of 1.5 L/h.
  test('is dose times flow over strength', () => {
    expect(set({})).toMatchObject({ litresPerHour: 0.32, litresPerDay: expect.closeTo(7.68, 9), strokePercent: null });
    const other = set({ doseMgL: 3, flowM3h: 25, strengthGL: 141.6, pumpLh: 1.5 });
    expect(other?.litresPerHour).toBeCloseTo(0.53, 3);
    expect(other?.mlPerMinute).toBeCloseTo(8.83, 2);
    expect(other?.strokePercent).toBeCloseTo(35.3, 1);
  });

  test('rises as hypochlorite loses strength', () => {
    const aged = set({ aged: { days: 21, storageC: 25 } });
    expect(aged?.strengthGL).toBeCloseTo(112.4, 1);
    expect(aged?.litresPerHour ?? 0).toBeGreaterThan(0.32);
  });

  test('is nothing for a product without strength', () => {
    expect(set({ strengthGL: 0 })).toBeNull();
  });
});
