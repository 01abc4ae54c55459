import { describe, expect, test } from '@jest/globals';
import { effectiveRules } from './effective-rules.js';

const NONE = { runHours: null, starts: null, cycles: null, days: null, graceDays: null };
const rule = (task: string, days: number, skidId: string | null = null) => ({ ...NONE, task, positionKind: 'valve', skidId, days });
const override = (task: string, more: object) => ({ ...NONE, task, positionKind: 'valve', positionId: null, off: false, reason: 'dusty', ...more });
const daysAt = (id: string, rules: ReturnType<typeof rule>[], overrides: ReturnType<typeof override>[] = []) =>
  effectiveRules({ id, kind: 'valve' }, rules, overrides).map(({ rule: { task, days }, source }) => [task, days, source]);

describe('the rules that hold at a position', () => {
  test('are those of its kind; a rule of the skid alone takes the place of the one of the set', () => {
    expect(daysAt('v1', [rule('check', 365), rule('grease', 90), rule('check', 100, 'skid'), { ...rule('other', 1), positionKind: 'seal' }])).toEqual([
      ['grease', 90, 'set'],
      ['check', 100, 'skid'],
    ]);
  });

  test('may be overridden at every position or at one, the one going first', () => {
    const overrides = [override('check', { days: 200 }), override('check', { days: 50, positionId: 'v2' })];
    expect(daysAt('v1', [rule('check', 365)], overrides)).toEqual([['check', 200, 'override']]);
    expect(daysAt('v2', [rule('check', 365)], overrides)).toEqual([['check', 50, 'override']]);
  });

  test('may be off', () => {
    expect(daysAt('v1', [rule('check', 365)], [override('check', { off: true, positionId: 'v1' })])).toEqual([]);
    expect(daysAt('v2', [rule('check', 365)], [override('check', { off: true, positionId: 'v1' })])).toEqual([['check', 365, 'set']]);
  });

  test('a limit named takes the place of all, a grace alone changes the grace', () => {
    const [byHours] = effectiveRules({ id: 'v1', kind: 'valve' }, [rule('check', 365)], [override('check', { runHours: 500 })]);
    expect(byHours?.rule).toMatchObject({ runHours: 500, days: null });
    const [graced] = effectiveRules({ id: 'v1', kind: 'valve' }, [rule('check', 365)], [override('check', { graceDays: 3 })]);
    expect(graced?.rule).toMatchObject({ days: 365, graceDays: 3 });
  });
});
