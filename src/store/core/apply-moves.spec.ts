import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { applyMoves, type Entry, type Move, type OnHand, type Rules } from './apply-moves.js';
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
const there = (onHand: string, lot: string | null = null, placeId = 'van', more: Partial<OnHand> = {}): OnHand => ({
  placeId,
  itemId: 'seal',
  lot,
  onHand,
  owner: 'us',
  ownerId: null,
  partId: null,
  expiresOn: null,
  held: false,
  ...more,
});
const RULES: Rules = {
  day: '2026-03-01',
  takesExpired: false,
  exact: false,
  toUse: ({ toPlaceId }) => toPlaceId === null,
  clientOf: (placeId) => (placeId === 'site' ? 'dairy' : null),
  isSerial: (partId) => partId.startsWith('no'),
};
const told = (result: ReturnType<typeof applyMoves>) =>
  result.kind === 'short'
    ? result.lines.map(({ placeId, lot, onHand, asked }) => `${placeId} ${lot} has ${onHand} of ${asked}`)
    : result.entries.map(
        ({ quantity, lot, fromPlaceId, toPlaceId, correction }) => `${quantity} ${lot} ${fromPlaceId} > ${toPlaceId}${correction ? ' found' : ''}`,
      );

describe('moves become entries', () => {
  test('what has no lot goes first, then the lots in the order in which they came', () => {
    const before = [there('2', 'L2'), there('3', 'L1'), there('1')];
    expect(told(applyMoves(before, [move('4.5', 'van', null)], RULES))).toEqual(['1 null van > null', '2 L2 van > null', '1.5 L1 van > null']);
  });

  test('a lot that is named is taken, and keeps its name at the other end', () => {
    expect(told(applyMoves([there('1'), there('3', 'L1')], [move('2', 'van', 'store', { lot: 'L1' })], RULES))).toEqual(['2 L1 van > store']);
  });

  test('a move finds what the one before it brought', () => {
    const result = applyMoves([], [move('2', null, 'store', { lot: 'L9' }), move('2', 'store', 'van'), move('1', 'van', null)], RULES);
    expect(told(result)).toEqual(['2 L9 null > store', '2 L9 store > van', '1 L9 van > null']);
  });

  test('what is short is said for all moves at once, and nothing is entered', () => {
    const result = applyMoves([there('1'), there('4', null, 'store')], [move('2', 'van', null), move('3', 'store', null), move('1', 'van', null)], RULES);
    expect(result).toEqual({ kind: 'short', lines: [{ itemId: 'seal', placeId: 'van', lot: null, onHand: '1', asked: '3', moves: [0, 2] }] });
  });

  test('another lot does not stand in for the one that is named', () => {
    expect(told(applyMoves([there('5', 'L1'), there('5')], [move('1', 'van', null, { lot: 'L2' })], RULES))).toEqual(['van L2 has 0 of 1']);
  });

  test('where the count was wrong, what is missing is found first, and said', () => {
    expect(told(applyMoves([there('1')], [move('3', 'van', null, { countWasWrong: true })], RULES))).toEqual([
      '1 null van > null',
      '2 null null > van found',
      '2 null van > null',
    ]);
  });

  describe('what is taken first', () => {
    const takes = (before: OnHand[], asked: Move, rules: Partial<Rules> = {}) => told(applyMoves(before, [asked], { ...RULES, ...rules }));
    const lots = [there('1'), there('1', 'LATE', 'van', { expiresOn: '2026-09-30' }), there('1', 'SOON', 'van', { expiresOn: '2026-03-01' })];

    test('expires first, and what does not expire goes last', () => {
      expect(takes(lots, move('3', 'van', null))).toEqual(['1 SOON van > null', '1 LATE van > null', '1 null van > null']);
    });

    test('is not past its expiry, unless somebody says why, and then last', () => {
      const old = [...lots, there('2', 'OLD', 'van', { expiresOn: '2026-02-28' })];
      const result = applyMoves(old, [move('4', 'van', null)], RULES);
      expect(result).toMatchObject({ kind: 'short', lines: [{ onHand: '3', asked: '4', passedOver: { expired: '2' } }] });
      expect(takes(old, move('4', 'van', null), { takesExpired: true }).at(-1)).toBe('1 OLD van > null');
      expect(takes(old, move('2', 'van', 'quarantine', { lot: 'OLD' }))).toEqual(['2 OLD van > quarantine']);
    });

    test('is never a lot that is held', () => {
      const held = [there('2', 'H', 'van', { held: true })];
      expect(applyMoves(held, [move('1', 'van', null)], { ...RULES, takesExpired: true })).toMatchObject({ lines: [{ passedOver: { held: '2' } }] });
    });

    test('is ours, then what a supplier keeps here; what is a client’s only at that client’s, or where it is named', () => {
      const client = { owner: 'client', ownerId: 'dairy' } as const;
      const mixed = (place: string) => [there('1', null, place, client), there('1', null, place, { owner: 'supplier', ownerId: 's' }), there('1', null, place)];
      const owners = (place: string, more: Partial<Move> = {}) => {
        const result = applyMoves(mixed(place), [move('3', place, null, more)], RULES);
        return result.kind === 'short' ? result.lines[0]?.passedOver : result.entries.map(({ owner }) => owner);
      };
      expect(owners('van')).toEqual({ 'of others': '1' });
      expect(owners('site')).toEqual(['us', 'supplier', 'client']);
      expect(owners('van', { quantity: '1', owner: { kind: 'client', id: 'dairy' } })).toEqual(['client']);
    });

    test('lies there without a serial number, unless that is asked for', () => {
      const serial = there('1', null, 'van', { partId: 'no 7' });
      expect(applyMoves([serial], [move('1', 'van', null)], RULES)).toMatchObject({ lines: [{ passedOver: { 'under serial numbers': '1' } }] });
      const named = (before: OnHand[], to: string | null) => applyMoves(before, [move('1', 'van', to, { partId: 'no 7' })], RULES);
      expect(named([there('2'), serial], null)).toMatchObject({ entries: [{ fromSerial: true, toSerial: false }] });
      expect(named([there('2')], 'store')).toMatchObject({ entries: [{ fromSerial: false, toSerial: true }] });
    });
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
        const result = applyMoves([], moves, RULES);
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
