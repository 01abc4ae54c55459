import { describe, expect, test } from '@jest/globals';
import { ruleDifferences } from './rule-differences.js';

const rule = (task: string, more: object = {}) => ({ positionKind: 'valve', task, runHours: null, days: 365, contains: [], ...more });

describe('what a version of a rule set changes', () => {
  test('is nothing between equal rules, in whatever order', () => {
    expect(ruleDifferences([rule('a'), rule('b')], [rule('b'), rule('a')])).toEqual([]);
  });

  test('names rules added and removed, and each field that changed', () => {
    const after = [rule('b', { days: null, runHours: 500, contains: ['a'] }), rule('c')];
    expect(ruleDifferences([rule('a'), rule('b')], after)).toEqual([
      { positionKind: 'valve', task: 'a', what: 'removed', fields: [] },
      {
        positionKind: 'valve',
        task: 'b',
        what: 'changed',
        fields: [
          { field: 'runHours', from: 'none', to: '500' },
          { field: 'days', from: '365', to: 'none' },
          { field: 'contains', from: 'none', to: 'a' },
        ],
      },
      { positionKind: 'valve', task: 'c', what: 'added', fields: [] },
    ]);
  });

  test('tells the same task at another kind of position apart', () => {
    expect(ruleDifferences([rule('a')], [rule('a'), rule('a', { positionKind: 'seal' })])).toMatchObject([{ positionKind: 'seal', what: 'added' }]);
  });
});
