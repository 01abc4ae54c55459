import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { checkDigit, hasCheckDigit } from './check-digit.js';
import { gs1Day } from './gs1-day.js';
import { scanOf } from './scan.js';

const GS = '\u001d';
const EMPTY = { lot: null, serial: null, expiresOn: null, bestBefore: null, count: null };

describe('the check digit', () => {
  // GS1 Barcode Syntax Dictionary, its test vectors.
  test.each([
    ['02345673', true],
    ['12345673', false],
    ['416000336108', true],
  ])('%s: %p', (digits, right) => expect(hasCheckDigit(digits)).toBe(right));

  test('finds every single wrong digit', () => {
    fc.assert(
      fc.property(fc.stringMatching(/^\d{13}$/), fc.nat(12), fc.integer({ min: 1, max: 9 }), (key, at, by) => {
        const whole = `${key}${checkDigit(key)}`;
        const wrong = `${whole.slice(0, at)}${(Number(whole[at]) + by) % 10}${whole.slice(at + 1)}`;
        expect([hasCheckDigit(whole), hasCheckDigit(wrong)]).toEqual([true, false]);
      }),
      { numRuns: 100 },
    );
  });
});

describe('a scan', () => {
  test('of element strings gives lot, serial number, expiry and count', () => {
    const all = { kind: 'scan', code: '00416000336108', lot: 'A-7', serial: 'S1', expiresOn: '2027-02-28', bestBefore: null, count: 12 };
    expect(scanOf(`]C101004160003361081727020010A-7${GS}21S1${GS}3012`, 2026)).toEqual(all);
    expect(scanOf(`01004160003361081727020010A-7${GS}21S1${GS}3012`, 2026)).toEqual(all);
    expect(scanOf('(01)00416000336108(17)270200(10)A-7(21)S1(30)12', 2026)).toEqual(all);
  });

  test('of a field in another order, with a measure between, is the same', () => {
    expect(scanOf(`]d210A7${GS}3103001250011234563${GS}`, 2026)).toMatchObject({ kind: 'unreadable' });
    expect(scanOf(`]d210A7${GS}31030012500100416000336108`, 2026)).toMatchObject({ code: '00416000336108', lot: 'A7' });
  });

  test('of a bare trade number is that of 14 digits, and of another text the text', () => {
    expect(scanOf('02345673', 2026)).toEqual({ kind: 'scan', code: '00000002345673', ...EMPTY });
    expect(scanOf(' SEAL-25 ', 2026)).toEqual({ kind: 'scan', code: 'SEAL-25', ...EMPTY });
  });

  test.each([
    ['', 'nothing'],
    ['416000336109', 'check digit'],
    ['(01)00416000336109', 'check digit'],
    ['(17)271331', 'no day'],
    ['(01)0041600033610', '14 are right'],
    [`]C10100416000336108${GS}99X`, 'no field'],
    [']C13012A', 'digits'],
  ])('of "%s" is refused, and it is said why', (text, why) => {
    expect(scanOf(text, 2026)).toEqual({ kind: 'unreadable', why: expect.stringContaining(why) });
  });

  test('never fails, whatever was typed', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 60 }), (text) => {
        expect(['scan', 'unreadable']).toContain(scanOf(text, 2026).kind);
      }),
      { numRuns: 300 },
    );
  });
});

describe('a day of two digits a year', () => {
  test.each([
    ['761231', '2076-12-31'],
    ['771231', '1977-12-31'],
    ['240229', '2024-02-29'],
    ['000100', '2000-01-31'],
  ])('%s, read in 2026, is %s', (text, day) => expect(gs1Day(text, 2026)).toBe(day));
  test('late in a century reaches into the next', () => expect(gs1Day('100101', 2090)).toBe('2110-01-01'));
  test.each(['250229', '261301', '260132', '26013', 'abcdef'])('%s is none', (text) => expect(gs1Day(text, 2026)).toBeNull());
});
