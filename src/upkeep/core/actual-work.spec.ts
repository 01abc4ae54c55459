import { describe, expect, test } from '@jest/globals';
import { actualWork } from './actual-work.js';

const job = (minutes: number | null, parts: Record<string, number> | null = null) => ({ minutes, parts });

describe('what finished work says of a sheet', () => {
  test('is nothing before three jobs, minutes and parts each for itself', () => {
    expect(actualWork([job(50), job(60), job(null), job(40)], [])).toEqual({
      minutes: { kind: 'minutes', median: 50, low: 40, high: 60, jobs: 3 },
      parts: { kind: 'too-little-data', have: 0, need: 3 },
    });
    expect(actualWork([], []).minutes).toEqual({ kind: 'too-little-data', have: 0, need: 3 });
  });

  test('names parts asked but seldom used, used but not asked, and used in another quantity', () => {
    const jobs = [job(1, { grease: 1, seal: 2 }), job(1, { grease: 1, seal: 2, oil: 1 }), job(1, { grease: 1, ring: 0 }), job(1, { seal: 2 })];
    const asked = [
      { itemId: 'grease', quantity: 1 },
      { itemId: 'seal', quantity: 1 },
      { itemId: 'ring', quantity: 1 },
    ];
    const { parts } = actualWork(jobs, asked);
    expect(parts).toEqual({
      kind: 'parts',
      jobs: 4,
      findings: [
        { itemId: 'seal', what: 'another quantity', asked: 1, used: 2, usedIn: 3, jobs: 4 },
        { itemId: 'ring', what: 'asked but seldom used', asked: 1, used: null, usedIn: 0, jobs: 4 },
      ],
    });
    expect(actualWork(jobs, []).parts).toMatchObject({
      findings: [
        { itemId: 'grease', what: 'used but not asked', used: 1, usedIn: 3 },
        { itemId: 'seal', what: 'used but not asked', used: 2, usedIn: 3 },
      ],
    });
  });
});
