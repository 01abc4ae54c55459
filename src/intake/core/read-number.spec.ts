import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { readNumber } from './read-number.js';

describe('reading a number', () => {
  test.each(['0', '-0.5', '+3', '.5', '5.', '1e3', '1.5E-3', ' 7 '])('takes %s', (text) => {
    expect(readNumber(text, '.', [])).toEqual({ kind: 'number', value: Number(text) });
  });

  test.each(['abc', '1 2', '0x10', '1e', '--1', '1.2.3', 'NaN', 'Infinity', '1_000', '½', "1'000", '1;2'])('refuses %s', (text) => {
    expect(readNumber(text, '.', []).kind).toBe('not-a-number');
  });

  test('refuses a number that no double can hold', () => {
    expect(readNumber('1e999', '.', [])).toEqual({ kind: 'not-a-number', reason: 'is too large for a number' });
  });

  test('says which decimal mark it expected', () => {
    expect(readNumber('1,5', '.', [])).toMatchObject({ reason: expect.stringContaining('decimal mark is a point') });
    expect(readNumber('1.5', ',', [])).toMatchObject({ reason: expect.stringContaining('decimal mark is a comma') });
  });

  test('takes empty text and the named texts as missing', () => {
    for (const text of ['', '  ', '-9999', 'bad']) expect(readNumber(text, '.', ['-9999', 'bad'])).toEqual({ kind: 'missing' });
  });

  test('reads back every number that JavaScript prints, with either decimal mark', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        const printed = String(value);
        expect(readNumber(printed, '.', [])).toEqual({ kind: 'number', value: Number(printed) });
        expect(readNumber(printed.replace('.', ','), ',', [])).toEqual({ kind: 'number', value: Number(printed) });
      }),
      { numRuns: 100 },
    );
  });
});
