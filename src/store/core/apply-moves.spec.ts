import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { applyMoves, type Entry, type Move, type OnHand } from './apply-moves.js';
import { millionthsOf } from './quantity.js';

const move = (quantity: string, fromPlaceId: string | null, toPlaceId: string | null, more: Partial<Move> = {}): Move => ({
  itemId: 'seal',
  lot: null,
  partId: null,
  quantity,
  fromPlaceId,
  toPlaceId,
  ...more,
});
const there = (onHand: string, lot: string | null = null, placeId = 'van'): OnHand => ({ placeId, itemId: 'seal', lot, onHand });
const told = (result: ReturnType<typeof applyMoves>) =>
  result.kind === 'short'
    ? result.lines.map(({ placeId, lot, onHand, asked }) => `${placeId} ${lot} has ${onHand} of ${asked}`)
    : result.entries.map(
        ({ quantity, lot, fromPlaceId, toPlaceId, correction }) => `${quantity} ${lot} ${fromPlaceId} > ${toPlaceId}${correction ? ' found' : ''}`,
      );

describe('moves become entries', () => {
  test('what has no lot goes first, then the lots in the order in which they came', () => {
    const before = [there('2', 'L2'), there('3', 'L1'), there('1')];
    expect(told(applyMoves(before, [move('4.5', 'van', null)]))).toEqual(['1 null van > null', '2 L2 van > null', '1.5 L1 van > null']);
  });

  test('a lot that is named is taken, and keeps its name at the other end', () => {
    expect(told(applyMoves([there('1'), there('3', 'L1')], [move('2', 'van', 'store', { lot: 'L1' })]))).toEqual(['2 L1 van > store']);
  });

  test('a move finds what the one before it brought', () => {
    const result = applyMoves([], [move('2', null, 'store', { lot: 'L9' }), move('2', 'store', 'van'), move('1', 'van', null)]);
    expect(told(result)).toEqual(['2 L9 null > store', '2 L9 store > van', '1 L9 van > null']);
  });

  test('what is short is said for all moves at once, and nothing is entered', () => {
    const result = applyMoves([there('1'), there('4', null, 'store')], [move('2', 'van', null), move('3', 'store', null), move('1', 'van', null)]);
    expect(result).toEqual({ kind: 'short', lines: [{ itemId: 'seal', placeId: 'van', lot: null, onHand: '1', asked: '3', moves: [0, 2] }] });
  });

  test('another lot does not stand in for the one that is named', () => {
    expect(told(applyMoves([there('5', 'L1'), there('5')], [move('1', 'van', null, { lot: 'L2' })]))).toEqual(['van L2 has 0 of 1']);
  });

  test('where the count was wrong, what is missing is found first, and said', () => {
    expect(told(applyMoves([there('1')], [move('3', 'van', null, { countWasWrong: true })]))).toEqual([
      '1 null van > null',
      '2 null null > van found',
      '2 null van > null',
    ]);
  });

  const places = fc.constantFrom<string | null>(null, 'van', 'store', 'site');
  const lots = fc.constantFrom<string | null>(null, 'L1', 'L2');
  const sizes = fc.integer({ min: 1, max: 9_000_000 }).map((size) => `${Math.floor(size / 1e6)}.${String(size % 1e6).padStart(6, '0')}`);
  const anyMove = fc
    .record({ quantity: sizes, from: places, to: places, lot: lots, itemId: fc.constantFrom('seal', 'oil'), countWasWrong: fc.boolean() })
    .filter(({ from, to, quantity }) => from !== to && (millionthsOf(quantity) ?? 0n) > 0n)
    .map(({ quantity, from, to, ...more }) => move(quantity, from, to, more));

  test('never below zero after any entry, and what goes in and out is what was asked for', () => {
    fc.assert(
      fc.property(fc.array(anyMove, { maxLength: 12 }), (moves) => {
        const result = applyMoves([], moves);
        if (result.kind === 'short') {
          expect(result.lines.every(({ onHand, asked }) => (millionthsOf(onHand) ?? 0n) < (millionthsOf(asked) ?? 0n))).toBe(true);
          return;
        }
        expect(lowest(result.entries)).toBeGreaterThanOrEqual(0n);
        const sum = (of: readonly { quantity: string }[]) => of.reduce((all, { quantity }) => all + (millionthsOf(quantity) ?? 0n), 0n);
        expect(sum(result.entries.filter(({ correction }) => !correction))).toBe(sum(moves));
      }),
      { numRuns: 300 },
    );
  });
});

function lowest(entries: readonly Entry[]): bigint {
  const shelves = new Map<string, bigint>();
  let low = 0n;
  for (const { itemId, lot, quantity, fromPlaceId, toPlaceId } of entries) {
    for (const [place, size] of [
      [fromPlaceId, -(millionthsOf(quantity) ?? 0n)],
      [toPlaceId, millionthsOf(quantity) ?? 0n],
    ] as const) {
      if (place === null) continue;
      const key = `${place} ${itemId} ${lot}`;
      const size2 = (shelves.get(key) ?? 0n) + size;
      shelves.set(key, size2);
      if (size2 < low) low = size2;
    }
  }
  return low;
}
