import { expect, test } from '@jest/globals';
import { spareInVans, type VanStock } from './kit-vans.js';

const VISIT = { id: 'visit', people: [{ personId: 'jo' }], jobs: [{ id: 'job' }] };
const van = (name: string, onHand: string, reserved: VanStock['reserved'] = [], itemId = 'seal'): VanStock => ({
  itemId,
  personId: name.toLowerCase(),
  name,
  onHand,
  reserved,
});
const kept = (quantity: string, { visitId = null, jobId = null }: { visitId?: string | null; jobId?: string | null }) => ({ visitId, jobId, quantity });
const told = (vans: readonly VanStock[]) => spareInVans(vans, VISIT).map(({ name, quantity, itemId }) => `${quantity} ${itemId} of ${name}`);

test('the fullest van first, and of those who go none', () => {
  expect(told([van('Tom', '1'), van('Jo', '9'), van('Ada', '2.5')])).toEqual(['2.5 seal of Ada', '1 seal of Tom']);
});

test('what is kept back there for something else is not to spare, what is kept back for this visit or its jobs is', () => {
  expect(told([van('Ada', '5', [kept('2', { visitId: 'other' }), kept('1', { visitId: 'visit' }), kept('1', { jobId: 'job' })])])).toEqual(['3 seal of Ada']);
  expect(told([van('Ada', '2', [kept('3', { jobId: 'other' })])])).toEqual([]);
});

test('two vans of one person count together, each with what it can spare; items never do', () => {
  expect(told([van('Ada', '2'), van('Ada', '1', [kept('4', { visitId: 'other' })]), van('Ada', '3'), van('Ada', '4', [], 'oil')])).toEqual([
    '5 seal of Ada',
    '4 oil of Ada',
  ]);
});
