import { describe, expect, test } from '@jest/globals';
import { type EnteredRule, ruleFaults } from './rule-faults.js';

const rule: EnteredRule = { task: 'Grease', positionKind: 'feed pump', days: 30, whileLaidUp: 'stands still', contains: [] };
const fieldsOf = (more: Partial<EnteredRule>, others: readonly { task: string; contains: string[] }[] = []) =>
  ruleFaults({ ...rule, ...more }, others).map(({ field }) => field);

describe('a rule as it was entered', () => {
  test.each<[string, Partial<EnteredRule>, string[]]>([
    ['with one limit is fine', {}, []],
    ['with an outlook alone is fine', { days: null, positionKind: 'skid', outlookLimit: 'permeability' }, []],
    ['with a condition alone is fine', { days: null, conditionFigure: 'TMP', conditionAbove: 80 }, []],
    ['needs a limit', { days: null }, ['days']],
    ['cannot count hours of the skid as a whole', { positionKind: 'skid', runHours: 500 }, ['runHours']],
    ['has outlooks where they speak', { outlookLimit: 'cartridge dP' }, ['outlookLimit']],
    ['needs days to hold only while laid up', { days: null, runHours: 100, whileLaidUp: 'only then' }, ['days']],
    ['says above or below what', { conditionFigure: 'TMP' }, ['conditionAbove']],
    ['says of what', { conditionAbove: 4, conditionBelow: 2 }, ['conditionAbove', 'conditionBelow']],
    ['leaves room between its limits', { conditionFigure: 'TMP', conditionAbove: 4, conditionBelow: 5 }, ['conditionBelow']],
    ['takes a share as a part of 1', { conditionFigure: 'permeability share', conditionBelow: 75 }, ['conditionBelow']],
    ['does not contain itself', { contains: ['Grease'] }, ['contains']],
  ])('%s', (_, more, fields) => expect(fieldsOf(more)).toEqual(fields));

  test('closes no ring with the others, and replaces what it said before', () => {
    expect(fieldsOf({ contains: ['Overhaul'] }, [{ task: 'Overhaul', contains: ['Grease'] }])).toEqual(['contains']);
    expect(fieldsOf({ contains: [] }, [{ task: 'Grease', contains: ['Grease'] }])).toEqual([]);
  });
});
