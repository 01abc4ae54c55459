import { describe, expect, test } from '@jest/globals';
import type { WorkToPlan } from '../planner/plan-input.js';
import type { JobBefore, PlacedFacts } from './facts.js';
import { orderOfWork } from './order-of-work.js';

const before = (id: string, more: Partial<JobBefore> = {}): JobBefore => ({ id, no: 12, visit: null, waits: false, ...more });
const placed = (kind: 'job' | 'due' | 'visit', id: string, ...after: JobBefore[]) => ({
  work: {} as WorkToPlan,
  from: { kind, id, after } as unknown as PlacedFacts,
});
const order = (...all: ReturnType<typeof placed>[]) => {
  const found = orderOfWork(all, '2026-11-30', 7);
  return {
    after: Object.fromEntries(found.placed.map(({ from, work }) => [from.id, work.after?.map((at) => found.placed[at]?.from.id)])),
    refused: found.refused.map(({ from, reason }) => `${from.id}: ${reason}`),
  };
};

describe('the order of work', () => {
  test('is told by numbers of jobs, and of the visits that they are in', () => {
    const visit = { id: 'v', onDay: '2026-12-01' };
    expect(order(placed('visit', 'v'), placed('job', 'b', before('a')), placed('job', 'a'), placed('job', 'c', before('d', { visit }))).after).toEqual({
      v: undefined,
      b: ['a'],
      a: undefined,
      c: ['v'],
    });
  });

  test('asks for nothing within one visit, or where the other job is done before the plan begins', () => {
    const visit = { id: 'v', onDay: '2026-12-01' };
    expect(order(placed('visit', 'v', before('a', { visit })), placed('job', 'b', before('c', { visit: { id: 'w', onDay: '2026-11-27' } })))).toEqual({
      after: { v: undefined, b: undefined },
      refused: [],
    });
  });

  test('refuses what comes after work that is not in the plan, and what comes after that', () => {
    expect(
      order(
        placed('job', 'b', before('a')),
        placed('job', 'c', before('b', { no: 13 })),
        placed('job', 'd', before('x', { waits: true })),
        placed('visit', 'v', before('a')),
      ),
    ).toEqual({
      after: { v: undefined },
      refused: [
        'b: it comes after job 12, which is not in the plan',
        'd: it comes after job 12, which waits: see there what for',
        'c: it comes after job 13, which is not in the plan',
      ],
    });
    const late = { id: 'w', onDay: '2026-12-09' };
    expect(order(placed('job', 'b', before('a', { visit: late }))).refused).toEqual([
      'b: it comes after job 12, whose visit is on 9 Dec, after the plan: plan more days, or shift that visit',
    ]);
  });
});
