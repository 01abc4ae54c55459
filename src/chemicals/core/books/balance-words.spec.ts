import { describe, expect, test } from '@jest/globals';
import { type BalanceAsked, balanceSaid } from './balance-words.js';
import { tankBooks } from './tank-books.js';

const FIRST = new Date('2025-09-01T08:00:00Z').getTime();
const WEEK_MS = 7 * 86_400_000;

/** Ten weeks at 56 L a week; `over` went besides. */
function said(over: (week: number) => number, given: Partial<BalanceAsked> = {}, count = 12) {
  let volumeL = 1000;
  const dips = Array.from({ length: count }, (_, week) => {
    if (week > 0) volumeL -= 56 + over(week);
    return { at: new Date(FIRST + week * WEEK_MS), volumeL, errorL: 3, broughtL: 0, expectedL: 56 };
  });
  return balanceSaid({
    books: tankBooks(dips),
    expectedLDay: 8,
    consumers: ['UF 1'],
    assay: null,
    today: '2025-11-18',
    dayOf: (at) => at.toISOString().slice(0, 10),
    ...given,
  });
}

describe('what the books of a tank mean', () => {
  test('is nothing while use is as set, with how right the books were', () => {
    expect(said(() => 0)).toEqual({
      state: 'in balance',
      driftLDay: null,
      words: 'What went is what the set points ask for, within the error of reading. 11 of the last 11 dips lay where the books put them (8 in 10 should).',
    });
  });

  test('is a leak or an overdose where more goes, since the day it began', () => {
    const found = said((week) => (week > 5 ? 14 : 0));
    expect(found.state).toBe('more');
    expect(found.driftLDay).toBeCloseTo(2, 6);
    expect(found.words).toMatch(
      /^Since 6 Oct about 2 L a day \(25 %\) more than the set points ask for, beyond what reading and pumps explain\. It may be a leak,/,
    );
    expect(found.words).not.toContain('draw from this tank');
  });

  test('is water without its dose where less goes', () => {
    const found = said((week) => (week > 5 ? -20 : 0));
    expect(found).toMatchObject({ state: 'less' });
    expect(found.words).toMatch(/no saving: water may go without its dose\. It may be a pump that lost its prime/);
  });

  test('tells a loss between two dips from one that lasts', () => {
    expect(said((week) => (week === 11 ? 70 : 0)).words).toMatch(/^Between 10 Nov and 17 Nov 70 L more than the set points ask for went at once/);
  });

  test('says of the tank what one dip cannot split, and what an assay explains', () => {
    const assay = { at: new Date('2025-11-10T10:00:00Z'), measuredGL: 100, reckonedGL: 120 };
    const { words } = said((week) => (week > 5 ? 14 : 0), { consumers: ['UF 1', 'UF 2', 'Wash bay'], assay });
    expect(words).toContain('UF 1, UF 2 and Wash bay draw from this tank: a dip cannot say which of them.');
    expect(words).toContain(
      'The assay of 10 Nov found 100 g/L where 120 were reckoned: a pump that follows the residual gives 20 % more product for that alone.',
    );
  });

  test('asks for the delivery that is missing, and for more dips', () => {
    expect(said((week) => (week === 11 ? -200 : 0))).toMatchObject({
      state: 'dips do not fit',
      words: expect.stringMatching(/rose by 144 L more than was brought since 10 Nov/),
    });
    expect(said(() => 0, {}, 3)).toMatchObject({ state: 'too little data' });
  });

  test('lets go of a drift too small to look into', () => {
    expect(said((week) => (week > 5 ? 14 : 0), { expectedLDay: 80 }).state).toBe('in balance');
  });
});
