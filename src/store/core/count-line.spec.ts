import { expect, test } from '@jest/globals';
import fc from 'fast-check';
import { countStanding } from './count-line.js';

const look = (counted: string, book: string) => ({ counted, book });

test('a line that is off asks for another look, and is settled when that finds the same difference', () => {
  expect(countStanding([look('4', '5')])).toEqual({ kind: 'off' });
  expect(countStanding([look('4', '5'), look('4', '5')])).toEqual({ kind: 'settled', difference: -1_000_000n });
  expect(countStanding([look('4', '5'), look('6', '5')])).toEqual({ kind: 'off' });
  expect(countStanding([look('4', '5'), look('6', '5'), look('6', '5')])).toEqual({ kind: 'settled', difference: 1_000_000n });
});

test('a second look that agrees with the ledger ends it', () => {
  expect(countStanding([look('4', '5'), look('5', '5')])).toEqual({ kind: 'agrees' });
});

test('what is moved between two looks changes neither difference', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 50 }), fc.integer({ min: -9, max: 9 }).filter(Boolean), fc.integer({ min: 0, max: 50 }), (book, off, moved) => {
      const first = look(String(book + 9 + off), String(book + 9));
      const second = look(String(book + 9 + off + moved), String(book + 9 + moved));
      expect(countStanding([first, second])).toEqual({ kind: 'settled', difference: BigInt(off) * 1_000_000n });
    }),
    { numRuns: 50 },
  );
});
