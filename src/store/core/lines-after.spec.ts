import { expect, test } from '@jest/globals';
import type { StoredLine } from './balance-changes.js';
import { changesBetween, linesAfter } from './lines-after.js';

const line = (id: string, lot: string | null, onHand: string): StoredLine => ({
  id,
  placeId: 'store',
  itemId: 'seal',
  lot,
  owner: 'us',
  ownerId: null,
  partId: null,
  expiresOn: null,
  held: false,
  onHand,
});
const newLine = (lot: string, onHand: string) => ({ placeId: 'store', itemId: 'seal', lot, owner: 'us' as const, ownerId: null, partId: null, onHand });

test('a line that ended and begins again comes last, and is stored anew', () => {
  const before = [line('1', 'A', '2'), line('2', 'B', '5')];
  const taken = linesAfter(before, { changed: [{ id: '2', onHand: '4' }], gone: ['1'], added: [] }, 'first');
  const brought = linesAfter(taken, { changed: [], gone: [], added: [newLine('A', '3')] }, 'second');
  expect(brought.map(({ lot, onHand }) => [lot, onHand])).toEqual([
    ['B', '4'],
    ['A', '3'],
  ]);
  expect(changesBetween(before, brought)).toEqual({ changed: [{ id: '2', onHand: '4' }], gone: ['1'], added: [newLine('A', '3')] });
});

test('what one post brings and the next takes leaves nothing to store', () => {
  const before = [line('1', 'A', '2')];
  const brought = linesAfter(before, { changed: [{ id: '1', onHand: '1' }], gone: [], added: [newLine('B', '1')] }, 'first');
  const [, added] = brought;
  const back = linesAfter(brought, { changed: [{ id: '1', onHand: '2' }], gone: [added?.id ?? ''], added: [] }, 'second');
  expect(changesBetween(before, back)).toEqual({ changed: [], gone: [], added: [] });
});
