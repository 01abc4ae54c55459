import { expect, test } from '@jest/globals';
import fc from 'fast-check';
import { kitPlaces } from './kit-places.js';

const stock = (placeId: string, kind: 'van' | 'store', onHand: number) => ({ itemId: 'seal', placeId, placeName: placeId, kind, onHand: String(onHand) });
const kit = (quantity: number) => [{ itemId: 'seal', quantity: String(quantity) }];
const told = (placed: ReturnType<typeof kitPlaces>) => placed.map(({ placeId, quantity }) => `${quantity} at ${placeId}`);

test('the van first, then the fullest store', () => {
  const there = [stock('small', 'store', 2), stock('big', 'store', 9), stock('van', 'van', 1)];
  expect(told(kitPlaces(kit(12), there, [], null))).toEqual(['1 at van', '9 at big', '2 at small']);
});

test('what others have kept back is not there for this one', () => {
  const there = [stock('big', 'store', 9), stock('van', 'van', 1)];
  const kept = [
    { placeId: 'van', itemId: 'seal', reserved: '1' },
    { placeId: 'big', itemId: 'seal', reserved: '7' },
  ];
  expect(told(kitPlaces(kit(3), there, kept, null))).toEqual(['3 at big']);
});

test('what is nowhere is missing at a store, or else in a van; where there is no place, nothing can be kept back', () => {
  expect(told(kitPlaces(kit(3), [], [], { id: 'store', kind: 'store' }))).toEqual(['3 at store']);
  expect(kitPlaces(kit(3), [], [], null)).toEqual([]);
});

test('all of it is kept back, once', () => {
  const some = fc.integer({ min: 0, max: 9 });
  fc.assert(
    fc.property(some, some, some, some, fc.integer({ min: 1, max: 20 }), (van, one, other, kept, wanted) => {
      const there = [stock('van', 'van', van), stock('one', 'store', one), stock('other', 'store', other)];
      const placed = kitPlaces(kit(wanted), there, [{ placeId: 'one', itemId: 'seal', reserved: String(kept) }], null);
      expect(placed.reduce((sum, { quantity }) => sum + Number(quantity), 0)).toBe(wanted);
      expect(new Set(placed.map(({ placeId }) => placeId)).size).toBe(placed.length);
    }),
    { numRuns: 100 },
  );
});
