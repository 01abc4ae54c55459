import { describe, expect, test } from '@jest/globals';
import { absorbSmaller } from './nested-tasks.js';

const due = (ruleId: string, dueOn: string, earliestOn: string, latestOn: string, contains: readonly string[] = []) => ({
  ruleId,
  dueOn,
  earliestOn,
  latestOn,
  contains,
});
const grease = due('grease', '2025-06-01', '2025-05-20', '2025-06-10');
const kept = (...dues: readonly ReturnType<typeof due>[]) =>
  absorbSmaller(dues).map(({ due: one, absorbs }) => [one.ruleId, absorbs.map(({ ruleId }) => ruleId)]);

describe('nested services', () => {
  test('a larger one absorbs the smaller that falls together with it', () => {
    expect(kept(grease, due('overhaul', '2025-06-05', '2025-06-04', '2025-06-05', ['grease']))).toEqual([['overhaul', ['grease']]]);
    expect(kept(grease, due('overhaul', '2025-06-20', '2025-05-25', '2025-07-01', ['grease']))).toEqual([['overhaul', ['grease']]]);
  });

  test('not one at another time, nor one that it does not contain', () => {
    expect(kept(grease, due('overhaul', '2025-09-01', '2025-08-01', '2025-09-10', ['grease']))).toEqual([
      ['grease', []],
      ['overhaul', []],
    ]);
    expect(kept(grease, due('alignment', '2025-06-01', '2025-05-20', '2025-06-10'))).toEqual([
      ['grease', []],
      ['alignment', []],
    ]);
  });

  test('the largest takes all', () => {
    const seal = due('seal', '2025-06-03', '2025-05-20', '2025-06-10', ['grease']);
    const overhaul = due('overhaul', '2025-06-05', '2025-05-20', '2025-06-10', ['seal', 'grease']);
    expect(kept(grease, seal, overhaul)).toEqual([['overhaul', ['grease', 'seal']]]);
  });
});
