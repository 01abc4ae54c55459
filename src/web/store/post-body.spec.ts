import { describe, expect, test } from '@jest/globals';
import type { ChosenItem } from './find-item.js';
import { checkPost, type PostEntries, postBody } from './post-body.js';

const ITEM: ChosenItem = { itemId: 'i', name: 'Seal', code: 'S-1', unit: 'C62', lot: '', expiresOn: '', quantity: '', serial: null, partId: null };
const EMPTY: PostEntries = {
  fromPlaceId: '',
  toPlaceId: '',
  direction: 'more',
  item: '',
  quantity: '',
  lot: '',
  owner: '',
  expiresOn: '',
  unitCost: '',
  note: '',
  wrongCount: '',
  expiredReason: '',
};

describe('an entry of stock', () => {
  test('asks for the ends that its kind has, the item, and a quantity', () => {
    expect(Object.keys(checkPost('receive', EMPTY, null))).toEqual(['toPlaceId', 'item', 'quantity']);
    expect(Object.keys(checkPost('transfer', EMPTY, null))).toEqual(['fromPlaceId', 'toPlaceId', 'item', 'quantity']);
    expect(Object.keys(checkPost('scrap', EMPTY, ITEM))).toEqual(['fromPlaceId', 'quantity', 'note']);
    expect(Object.keys(checkPost('correct', { ...EMPTY, direction: 'less', quantity: '0' }, ITEM))).toEqual(['fromPlaceId', 'quantity', 'note']);
  });

  test('takes a decimal comma, and leaves out what does not belong to its kind', () => {
    const typed = { ...EMPTY, fromPlaceId: 'a', toPlaceId: 'b', quantity: '2,5', lot: ' L7 ', expiresOn: '2027-01-31', unitCost: '3,2' };
    expect(postBody('receive', typed, ITEM).moves[0]).toMatchObject({
      quantity: '2.5',
      lot: 'L7',
      fromPlaceId: null,
      toPlaceId: 'b',
      expiresOn: '2027-01-31',
      unitCost: '3.2',
    });
    const lent = { ...typed, owner: 'supplier s' };
    expect(postBody('receive', lent, ITEM).moves[0]).toMatchObject({ owner: 'supplier', ownerId: 's', unitCost: null });
    expect(postBody('transfer', lent, ITEM).moves[0]).not.toHaveProperty('owner');
    expect(postBody('transfer', typed, ITEM).moves[0]).toMatchObject({ fromPlaceId: 'a', toPlaceId: 'b', expiresOn: null, unitCost: null });
    expect(postBody('scrap', typed, ITEM)).not.toHaveProperty('expiredReason');
  });
});
