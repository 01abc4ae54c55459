import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { groupLines, roundToPacks, type WantedLine } from './group-lines.js';

const line = (id: string, about: Partial<WantedLine> = {}): WantedLine => ({
  id,
  supplierId: 'brook',
  placeId: 'store',
  quantity: 1,
  pack: 1,
  minimumQuantity: 0,
  price: 10,
  orderInDays: 0,
  ...about,
});
const ids = (orders: ReturnType<typeof groupLines>) => orders.map(({ lines }) => lines.map(({ id, early }) => `${id}${early ? ' early' : ''}`));

describe('grouping lines into orders', () => {
  test('is one order for each supplier and place, of what is due', () => {
    const wanted = [line('a'), line('b', { placeId: 'van' }), line('c', { supplierId: 'ash' }), line('d', { orderInDays: -3 }), line('e', { orderInDays: 9 })];
    expect(ids(groupLines(wanted, []))).toEqual([['d', 'a'], ['b'], ['c']]);
  });

  test('takes along what falls due next, until the supplier’s minimum is reached', () => {
    const wanted = [line('now'), line('in 20', { orderInDays: 20 }), line('in 5', { orderInDays: 5 }), line('in 90', { orderInDays: 90 })];
    const terms = (minimumOrder: number) => [{ supplierId: 'brook', minimumOrder }];
    expect(ids(groupLines(wanted, terms(10)))).toEqual([['now']]);
    expect(ids(groupLines(wanted, terms(15)))).toEqual([['now', 'in 5 early']]);
    expect(groupLines(wanted, terms(100))).toMatchObject([{ value: 30, short: 70 }]);
  });

  test('takes along what comes along anyway before it looks for more, and orders nothing for its sake alone', () => {
    const along = line('along', { orderInDays: 30, comesAlong: true });
    const wanted = [line('now'), line('in 5', { orderInDays: 5 }), along];
    expect(ids(groupLines(wanted, []))).toEqual([['now', 'along early']]);
    expect(ids(groupLines(wanted, [{ supplierId: 'brook', minimumOrder: 25 }]))).toEqual([['now', 'along early', 'in 5 early']]);
    expect(groupLines([along], [])).toEqual([]);
  });

  test('orders nothing where nothing is due', () => {
    expect(groupLines([line('a', { orderInDays: 1 })], [{ supplierId: 'brook', minimumOrder: 500 }])).toEqual([]);
  });

  test('says of how many lines the price is not known', () => {
    expect(groupLines([line('a', { price: null }), line('b')], [])).toMatchObject([{ value: 10, withoutPrice: 1 }]);
  });

  test('a quantity becomes whole packs, no less than wanted and no less than is sold, by less than a pack too much', () => {
    const sold = fc.record({ quantity: fc.integer({ min: 1, max: 500 }), pack: fc.integer({ min: 1, max: 50 }), minimumQuantity: fc.nat(100) });
    fc.assert(
      fc.property(sold, (about) => {
        const { quantity } = roundToPacks(about);
        const least = Math.max(about.quantity, about.minimumQuantity);
        expect(quantity % about.pack).toBe(0);
        expect(quantity).toBeGreaterThanOrEqual(least);
        expect(quantity - least).toBeLessThan(about.pack);
      }),
      { numRuns: 100 },
    );
  });

  test('packs of a fraction are not raised by rounding of numbers', () => {
    expect(roundToPacks({ quantity: 0.3, pack: 0.1, minimumQuantity: 0 })).toEqual({ quantity: 0.3, raisedTo: null });
  });
});
