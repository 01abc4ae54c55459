import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { canOrderDays } from '../policy/can-order.js';
import { type JointLine, ordersTogether } from './order-with-it.js';

const line = (id: string, about: Partial<JointLine> = {}): JointLine => ({
  id,
  supplierId: 'brook',
  placeId: 'store',
  isDue: false,
  canOrder: false,
  orderBy: '2026-12-10',
  value: 10,
  ...about,
});
const none = () => null;

describe('what is ordered together', () => {
  test('is what is due, and what it pays to take along, at the same supplier and place', () => {
    const due = line('due', { isDue: true, orderBy: '2026-11-25' });
    const pays = line('pays', { canOrder: true });
    const sooner = line('sooner', { canOrder: true, orderBy: '2026-12-01' });
    const elsewhere = line('elsewhere', { canOrder: true, placeId: 'van' });
    expect(ordersTogether([pays, line('not yet'), due, sooner, elsewhere], none)).toEqual([
      {
        supplierId: 'brook',
        placeId: 'store',
        due: ['due'],
        withIt: ['sooner', 'pays'],
        toMinimum: [],
        valueDue: 10,
        valueOfAll: 30,
        short: 0,
        withoutPrice: 0,
      },
    ]);
  });

  test('is filled up to the minimum order with what falls due next, and says what is missing even so', () => {
    const lines = [line('due', { isDue: true }), line('c', { orderBy: '2026-12-30' }), line('b', { orderBy: '2026-12-20', value: null }), line('a')];
    expect(ordersTogether(lines, () => 15)).toMatchObject([{ toMinimum: ['a'], short: 0 }]);
    expect(ordersTogether(lines, () => 25)).toMatchObject([{ toMinimum: ['a', 'b', 'c'], valueOfAll: 30, short: 0, withoutPrice: 1 }]);
    expect(ordersTogether(lines, () => 45)).toMatchObject([{ short: 15 }]);
  });

  test('is nothing where nothing is due', () => {
    expect(ordersTogether([line('a', { canOrder: true })], () => 500)).toEqual([]);
  });
});

describe('the days by which it pays to bring an order forward', () => {
  test('are fewer, the more is bought and the dearer it is, and more, the more an order costs', () => {
    const asked = fc.record({
      quantity: fc.integer({ min: 1, max: 500 }),
      unitCost: fc.integer({ min: 1, max: 5000 }),
      orderCost: fc.integer({ min: 1, max: 200 }),
    });
    fc.assert(
      fc.property(asked, (one) => {
        const days = canOrderDays(one);
        expect(canOrderDays({ ...one, quantity: one.quantity + 1 })).toBeLessThanOrEqual(days);
        expect(canOrderDays({ ...one, unitCost: one.unitCost + 1 })).toBeLessThanOrEqual(days);
        expect(canOrderDays({ ...one, orderCost: one.orderCost + 1 })).toBeGreaterThanOrEqual(days);
      }),
      { numRuns: 100 },
    );
  });
});
