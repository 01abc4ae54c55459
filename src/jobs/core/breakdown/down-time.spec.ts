import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { downMinutes, downTimeInWords, minutesInWords } from './down-time.js';

const at = (text: string) => new Date(`2025-11-03T${text}:00Z`);
const now = at('12:00');

describe('down time in words', () => {
  test('is said with its length once both times are known', () => {
    expect(downTimeInWords({ downFrom: at('08:00'), restoredAt: at('11:20'), ended: true, now })).toBe('Down for 3 h 20 min');
  });

  test('runs on while the skid is down', () => {
    expect(downTimeInWords({ downFrom: at('08:00'), restoredAt: null, ended: false, now })).toBe('Down for 4 h so far');
  });

  test('stays unknown where nobody said when it was restored', () => {
    expect(downTimeInWords({ downFrom: at('08:00'), restoredAt: null, ended: true, now })).toBe('It stopped; when it was restored is not known');
    expect(downTimeInWords({ downFrom: null, restoredAt: at('11:20'), ended: true, now })).toBe('No time of a stop is known');
    expect(downMinutes({ downFrom: at('08:00'), restoredAt: null })).toBeNull();
  });

  test('a time in words is never longer than the time itself, nor shorter by more than an hour', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 500_000 }), (minutes) => {
        const said = [...minutesInWords(minutes).matchAll(/(\d+) (d|h|min)/g)].reduce(
          (sum, [, n, unit]) => sum + Number(n) * { d: 1440, h: 60, min: 1 }[unit as 'd'],
          0,
        );
        expect(said).toBeLessThanOrEqual(minutes);
        expect(minutes - said).toBeLessThan(60);
      }),
      { numRuns: 100 },
    );
  });
});
