import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { leadTimeOf } from './lead-time.js';
import { inUseUnits, lineProgress } from './line-progress.js';
import { actProblem, ORDER_STATES, type OrderAct } from './order-acts.js';
import { orderLateness } from './order-lateness.js';
import { chaseLetter, orderLetter } from './order-letter.js';
import { orderValue, unitCost } from './order-value.js';

describe('what may be done to an order', () => {
  test.each<[OrderAct, string[]]>([
    ['edit', ['draft']],
    ['send', ['approved']],
    ['receive', ['sent']],
    ['return', ['sent', 'closed']],
    ['cancel', ['draft', 'approved', 'sent']],
  ])('%s: in the states %j', (act, states) => {
    expect(ORDER_STATES.filter((state) => actProblem(act, state) === null)).toEqual(states);
  });

  test('what may not is answered with what to do instead', () => {
    expect(actProblem('receive', 'closed')).toContain('make a new order');
    expect(actProblem('edit', 'sent')).toContain('tell the supplier');
  });
});

describe('how far a line has come', () => {
  const part = fc.record({
    outcome: fc.constantFrom('good' as const, 'damaged' as const, 'wrong' as const),
    quantity: fc.integer({ min: 1, max: 50 }).map(String),
  });

  test('what was ordered is there, is open, or both too much and nothing open', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 100 }), fc.array(part, { maxLength: 6 }), (ordered, received) => {
        const { good, open, over } = lineProgress({ ordered: String(ordered), received, toBeReplaced: [] });
        expect(Number(good) + Number(open) - Number(over)).toBe(ordered);
        expect(Math.min(Number(open), Number(over))).toBe(0);
      }),
      { numRuns: 100 },
    );
  });

  test('what goes back and is sent anew is open again', () => {
    const received = [{ outcome: 'good', quantity: '10' } as const];
    expect(lineProgress({ ordered: '10', received, toBeReplaced: ['2.5'] })).toEqual({ good: '7.5', damaged: '0', wrong: '0', open: '2.5', over: '0' });
  });

  test('units of purchase become units of use without loss', () => expect(inUseUnits('0.1', '0.3')).toBe('0.03'));
});

describe('what an order is worth', () => {
  test('is the sum of its lines that have a price', () => {
    expect(
      orderValue([
        { quantity: '0.1', price: '3' },
        { quantity: '0.2', price: '3' },
      ]),
    ).toEqual({ value: '0.9', withoutPrice: 0 });
  });
  test('by the unit of use needs a price and a rate', () => {
    expect(unitCost({ price: '3.5', unitsPerPurchase: '12', rate: '1.16' })).toBe('0.338333');
    expect(unitCost({ price: '3.5', unitsPerPurchase: '12', rate: null })).toBeNull();
  });
});

describe('an order that has not all come', () => {
  const day = (text: string) => new Date(`${text}T00:00:00Z`);
  const order = { sentOn: day('2026-11-01'), promisedOn: null, neededOn: day('2026-11-20') };

  test('is late by what was promised, else by what is stated, else by what was learnt', () => {
    const today = day('2026-11-25');
    expect(orderLateness(order, leadTimeOf(10, []), today)).toMatchObject({ by: 'stated', lateDays: 14, afterNeedDays: 5 });
    expect(orderLateness({ ...order, promisedOn: day('2026-11-30') }, leadTimeOf(10, []), today)).toMatchObject({
      by: 'promise',
      lateDays: 0,
      afterNeedDays: 10,
    });
    expect(orderLateness(order, leadTimeOf(null, []), today)).toMatchObject({ by: 'learnt', lateDays: 0 });
  });

  test('is the likelier to come within a week the closer its day is, given that it has not come', () => {
    const chances = ['2026-11-01', '2026-11-05', '2026-11-10'].map((today) => orderLateness(order, leadTimeOf(10, []), day(today)).withinWeek ?? 0);
    expect(chances).toEqual([...chances].sort((a, b) => a - b));
    expect(orderLateness(order, leadTimeOf(10, []), day('2027-11-01')).withinWeek).toBeNull();
  });
});

describe('letters', () => {
  const goods = { itemCode: 'SEAL-25', itemName: 'Seal 25 mm', supplierCode: 'B-7', quantity: '2', unit: 'DZN' };

  test('an order says all that the supplier needs', () => {
    const lines = [{ ...goods, no: 1, price: '3.5', neededOn: '2026-12-01' }];
    const { subject, text } = orderLetter({
      no: 12,
      currency: 'GBP',
      customerNumber: 'K-1',
      deliverTo: 'Main store',
      note: 'Gate 2',
      by: 'A storekeeper',
      value: '7',
      lines,
    });
    expect(subject).toBe('Purchase order 12');
    for (const said of [
      '2 DZN  B-7  Seal 25 mm',
      'our code SEAL-25',
      '3.5 GBP each',
      'needed on 1 Dec 2026',
      'Total without taxes: 7 GBP',
      'Main store',
      'Gate 2',
      'K-1',
    ])
      expect(text).toContain(said);
  });

  test('a late one is asked after by what is still to come', () => {
    const chased = { no: 12, sentOn: '2026-11-01', expectedOn: '2026-11-11', promised: false, by: 'A storekeeper', open: [goods] };
    expect(chaseLetter(chased).text).toContain('it was due on 11 Nov 2026');
    expect(chaseLetter({ ...chased, promised: true }).text).toContain('You promised it for 11 Nov 2026');
  });
});
