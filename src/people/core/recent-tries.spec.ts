import { describe, expect, test } from '@jest/globals';
import { RecentTries } from './recent-tries.js';

describe('tries to sign in', () => {
  test('are refused once too many failed within the time, and allowed again afterwards', () => {
    const tries = new RecentTries(3, 1000);
    expect([0, 100, 200, 300].map((now) => tries.take('a', now))).toEqual([true, true, true, false]);
    expect(tries.take('a', 999)).toBe(false);
    expect(tries.take('a', 1001)).toBe(true);
    expect(tries.take('a', 1050)).toBe(false);
  });

  test('of one account leave the others alone', () => {
    const tries = new RecentTries(1, 1000);
    tries.take('a', 0);
    expect(tries.take('b', 0)).toBe(true);
  });

  test('that succeed are given back', () => {
    const tries = new RecentTries(1, 1000);
    for (let now = 0; now < 10; now++) {
      expect(tries.take('a', now)).toBe(true);
      tries.giveBack('a');
    }
  });

  test('are forgotten altogether for an account whose password is known', () => {
    const tries = new RecentTries(2, 1000);
    tries.take('a', 0);
    tries.take('a', 1);
    tries.forget('a');
    expect([2, 3, 4].map((now) => tries.take('a', now))).toEqual([true, true, false]);
  });

  test('of very many accounts are still counted for each', () => {
    const tries = new RecentTries(1, 1000);
    for (let n = 0; n < 3000; n++) tries.take(`account ${n}`, n);
    expect(tries.take('account 2999', 3000)).toBe(false);
    expect(tries.take('account 0', 3000)).toBe(true);
  });
});
