import { describe, expect, test } from '@jest/globals';
import { receiptBody, receiptFieldAt } from './receipt-body.js';

const LINES = [
  { id: 'a', no: 1 },
  { id: 'b', no: 2 },
];
const ENTRIES = { deliveryNote: ' DN 7 ', keepMore: '', 'quantity 1': '', 'outcome 1': 'good', 'quantity 2': '1,5', 'lot 2': 'L2', 'outcome 2': 'damaged' };

describe('a receipt', () => {
  test('holds the lines of which something came', () => {
    expect(receiptBody(LINES, ENTRIES)).toEqual({
      deliveryNote: 'DN 7',
      note: '',
      keepMore: false,
      lines: [{ lineId: 'b', outcome: 'damaged', quantity: '1.5', lot: 'L2', expiresOn: null }],
    });
  });

  test('says whose it is where it is not ours', () => {
    expect(receiptBody(LINES, { ...ENTRIES, owner: 'client c1' })).toMatchObject({ owner: 'client', ownerId: 'c1' });
    expect(receiptBody(LINES, { ...ENTRIES, owner: 'supplier' })).toMatchObject({ owner: 'supplier' });
    expect(receiptBody(LINES, { ...ENTRIES, owner: '' })).not.toHaveProperty('owner');
    expect(receiptFieldAt(LINES, ENTRIES, '#/ownerId')).toBe('owner');
  });

  test('finds the field again that the service speaks of', () => {
    expect(receiptFieldAt(LINES, ENTRIES, '#/lines/0/expiresOn')).toBe('expiresOn 2');
    expect(receiptFieldAt(LINES, ENTRIES, '#/lines/0')).toBe('quantity 2');
    expect(receiptFieldAt(LINES, ENTRIES, '#/deliveryNote')).toBe('deliveryNote');
  });
});
