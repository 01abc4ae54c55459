import { describe, expect, test } from '@jest/globals';
import { strengthAfterGL } from './hypochlorite-strength.js';
import { strengthRecord } from './strength-record.js';

const day = (number: number) => new Date(Date.UTC(2026, 5, number));
const usual = { usualGL: 125, storageC: 25 };

describe('the strength in a tank', () => {
  test('falls with time from the first delivery on', () => {
    const at = strengthRecord([], [{ at: day(1), volumeL: 200, strengthGL: 125 }], usual);
    expect(at(day(1))).toBeCloseTo(125, 9);
    expect(at(day(22))).toBeCloseTo(strengthAfterGL(125, 21, 25), 9);
  });

  test('is mixed from what was left and what was poured in', () => {
    const dips = [{ at: day(11), volumeL: 100, strengthGL: null }];
    const deliveries = [
      { at: day(1), volumeL: 200, strengthGL: 125 },
      { at: day(11), volumeL: 300, strengthGL: 120 },
    ];
    const left = strengthAfterGL(125, 10, 25);
    expect(strengthRecord(dips, deliveries, usual)(day(11))).toBeCloseTo((100 * left + 300 * 120) / 400, 6);
  });

  test('is the measured one where somebody measured it', () => {
    const dips = [{ at: day(11), volumeL: 100, strengthGL: 90 }];
    expect(strengthRecord(dips, [{ at: day(1), volumeL: 200, strengthGL: 125 }], usual)(day(11))).toBe(90);
  });

  test('is that of an assay until the next delivery', () => {
    const assays = [{ at: day(12), strengthGL: 88 }];
    const at = strengthRecord([], [{ at: day(1), volumeL: 200, strengthGL: 125 }], { ...usual, assays });
    expect(at(day(12))).toBe(88);
    expect(at(day(11))).toBeGreaterThan(100);
    expect(at(day(20))).toBeLessThan(88);
  });

  test('is the usual one before anything is known', () => {
    expect(strengthRecord([], [], usual)(day(1))).toBe(125);
  });
});
