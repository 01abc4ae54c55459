import { expect, test } from '@jest/globals';
import type { Entry } from './apply-moves.js';
import { balanceChanges, type StoredLine } from './balance-changes.js';

const line = (id: string, onHand: string, more: Partial<StoredLine> = {}): StoredLine => ({
  id,
  placeId: 'store',
  itemId: 'seal',
  lot: null,
  owner: 'us',
  ownerId: null,
  partId: null,
  expiresOn: null,
  held: false,
  onHand,
  ...more,
});
const entry = (quantity: string, fromPlaceId: string | null, toPlaceId: string | null, more: Partial<Entry> = {}): Entry => ({
  itemId: 'seal',
  lot: null,
  partId: null,
  quantity,
  fromPlaceId,
  toPlaceId,
  owner: 'us',
  ownerId: null,
  fromSerial: false,
  toSerial: false,
  correction: false,
  unitCost: null,
  ...more,
});

test('lines grow, shrink, end and begin', () => {
  const before = [line('1', '5'), line('2', '1.5', { lot: 'A' })];
  const changes = balanceChanges(before, [entry('2', 'store', 'van'), entry('1.5', 'store', null, { lot: 'A' }), entry('0.5', null, 'store')]);
  expect(changes.changed).toEqual([{ id: '1', onHand: '3.5' }]);
  expect(changes.gone).toEqual(['2']);
  expect(changes.added).toMatchObject([{ placeId: 'van', onHand: '2' }]);
});

test('what comes and goes within a post changes nothing', () => {
  expect(balanceChanges([line('1', '5')], [entry('2', null, 'store'), entry('2', 'store', null), entry('1', null, 'van'), entry('1', 'van', null)])).toEqual({
    changed: [],
    gone: [],
    added: [],
  });
});

test('a piece that gets its serial number leaves the line without one', () => {
  const { changed, added } = balanceChanges([line('1', '2')], [entry('1', 'store', 'van', { partId: 'p', toSerial: true })]);
  expect([changed, added]).toMatchObject([[{ id: '1', onHand: '1' }], [{ placeId: 'van', partId: 'p', onHand: '1' }]]);
});
