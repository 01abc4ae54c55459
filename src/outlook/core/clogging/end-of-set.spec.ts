import { describe, expect, test } from '@jest/globals';
import { dayPlus } from '../../../shared/day.js';
import { endOfSet } from './end-of-set.js';

const FITTED = '2026-01-01';
/** A set that climbs steeply and was changed after 30 days; read every so many days. */
const read = (everyDays: number, days = 30) =>
  Array.from({ length: Math.floor((days - 1) / everyDays) }, (_, at) => (at + 1) * everyDays).map((day) => ({
    day: dayPlus(FITTED, day),
    dpKpa: 15 + 85 * (day / 30) ** 3.2,
  }));
const set = (reason: string | null, everyDays: number, days = 30) =>
  endOfSet({ fittedOn: FITTED, removedOn: dayPlus(FITTED, days), reason, limitKpa: 100, values: read(everyDays, days) });

describe('the end of a set of cartridges', () => {
  test('is what people wrote where nobody read its last steep days', () => {
    expect(set('pressure drop at the limit', 7)).toBe('limit');
    expect(set('clogged', 7)).toBe('limit');
    expect(set('changed by the calendar', 7)).toBe('censored');
    expect(set(null, 7)).toBe('censored');
  });

  test('is what was read where readings were close: a reason does not make a half-used set a spent one', () => {
    expect(endOfSet({ fittedOn: FITTED, removedOn: '2026-05-01', reason: 'at the limit', limitKpa: 100, values: read(1, 20) })).toBe('limit');
    const close = read(1, 20).map(({ dpKpa }, at) => ({ day: dayPlus('2026-04-11', at), dpKpa }));
    expect(endOfSet({ fittedOn: FITTED, removedOn: '2026-05-01', reason: 'at the limit', limitKpa: 100, values: close })).toBe('censored');
  });

  test('needs no reason where the limit was read', () => {
    const values = read(1).map((one) => ({ ...one, dpKpa: one.dpKpa + 12 }));
    expect(endOfSet({ fittedOn: FITTED, removedOn: '2026-01-31', reason: null, limitKpa: 100, values })).toBe('limit');
  });
});
