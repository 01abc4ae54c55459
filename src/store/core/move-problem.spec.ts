import { describe, expect, test } from '@jest/globals';
import { moveProblem, POST_KINDS, type PostKind } from './move-problem.js';

const ends = { in: { fromPlaceId: null, toPlaceId: 'a' }, out: { fromPlaceId: 'a', toPlaceId: null }, across: { fromPlaceId: 'a', toPlaceId: 'b' } };

/** Which ways each kind goes: into stock, out of it, from place to place. */
const WAYS: Record<PostKind, (keyof typeof ends)[]> = {
  receive: ['in'],
  use: ['out'],
  consume: ['out'],
  transfer: ['across'],
  send: ['across'],
  arrive: ['in', 'out', 'across'],
  return: ['in', 'across'],
  repair: ['across'],
  repaired: ['across'],
  'send back': ['out'],
  scrap: ['out'],
  correct: ['in', 'out'],
  count: ['in', 'out'],
  reverse: ['in', 'out', 'across'],
};

describe('the ends of a move', () => {
  test.each(POST_KINDS)('of %s', (kind) => {
    const allowed = (Object.keys(ends) as (keyof typeof ends)[]).filter((way) => moveProblem(kind, ends[way]) === null);
    expect(allowed).toEqual(WAYS[kind]);
  });

  test.each(POST_KINDS)('%s is neither from nowhere to nowhere nor on the spot', (kind) => {
    expect(moveProblem(kind, { fromPlaceId: null, toPlaceId: null })).not.toBeNull();
    expect(moveProblem(kind, { fromPlaceId: 'a', toPlaceId: 'a' })).toMatchObject({ field: 'toPlaceId' });
  });
});
