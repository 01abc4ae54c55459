import { describe, expect, test } from '@jest/globals';
import { bodyOfRule, checkRule, entriesOf, NEW_RULE, type Rule, ruleFieldAt } from './rule-entries.js';

const RULE: Rule = {
  id: 'r',
  ruleSetVersionId: 'v',
  skidId: null,
  task: 'Change the oil',
  positionKind: 'blower',
  runHours: 1000,
  starts: null,
  cycles: null,
  days: 182,
  outlookLimit: null,
  conditionFigure: null,
  conditionAbove: null,
  conditionBelow: null,
  base: 'fixed',
  graceDays: 0,
  whileLaidUp: 'runs on',
  contains: ['Check belt', 'Check filter'],
  taskSheetId: 's',
  sheetTask: 'Change the oil of the blower',
  usualMinutes: 60,
  crew: 1,
  inWords: '',
  note: 'Page 12',
  endedOn: null,
  version: 3,
};
const GOOD = { ...NEW_RULE, taskSheetId: 's', sheetTask: 'Change the oil', days: '90' };

describe('the form of a rule', () => {
  test('sends a rule as it came when nothing was changed', () => {
    const { id: _, ruleSetVersionId: __, skidId: ___, sheetTask, usualMinutes, crew, inWords, endedOn, version, ...content } = RULE;
    expect([sheetTask, usualMinutes, crew, inWords, endedOn, version]).toHaveLength(6);
    expect(bodyOfRule(entriesOf(RULE))).toEqual(content);
  });

  test('takes the words of the task sheet where none are given', () => {
    expect(bodyOfRule(GOOD).task).toBe('Change the oil');
    expect(bodyOfRule({ ...GOOD, task: ' Drain the oil ' }).task).toBe('Drain the oil');
  });

  test('reads a decimal comma', () => {
    expect(bodyOfRule({ ...GOOD, positionKind: 'blower', runHours: '1500,5' }).runHours).toBe(1500.5);
  });

  test('has nothing against a whole rule', () => {
    expect(checkRule(GOOD)).toEqual({});
    expect(checkRule(entriesOf(RULE))).toEqual({});
  });

  test.each([
    ['no limit at all', { days: '' }, 'days'],
    ['no task sheet', { taskSheetId: '' }, 'taskSheetId'],
    ['half a day', { days: '1.5' }, 'days'],
    ['no hours', { positionKind: 'blower', runHours: '0' }, 'runHours'],
    ['a counter of the skid as a whole', { cycles: '100' }, 'cycles'],
    ['more than a year of grace', { graceDays: '366' }, 'graceDays'],
    ['a value without its figure', { conditionAbove: '80' }, 'conditionFigure'],
    ['a figure without a value', { conditionFigure: 'TMP' }, 'conditionAbove'],
    ['bounds that hold every value', { conditionFigure: 'TMP', conditionAbove: '50', conditionBelow: '60' }, 'conditionBelow'],
    ['a lay-up rule that nothing drives', { days: '', outlookLimit: 'permeability', whileLaidUp: 'only then' }, 'days'],
  ])('tells %s at its field', (_, change, field) => {
    expect(Object.keys(checkRule({ ...GOOD, ...change }))).toEqual([field]);
  });

  test('finds the field that the service means, of a list the list', () => {
    expect(ruleFieldAt('#/contains/2')).toBe('contains');
    expect(ruleFieldAt('#/days')).toBe('days');
  });
});
