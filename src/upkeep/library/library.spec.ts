import { describe, expect, test } from '@jest/globals';
import { POSITION_KINDS } from '../../shared/position-kinds.js';
import { ruleFaults } from '../core/rule-faults.js';
import { stepFaults } from '../core/step-faults.js';
import { LIBRARY_RULES, LIBRARY_SHEETS } from './library.js';

describe('the starting library', () => {
  test('has one sheet for each task, and a sheet for every rule and every task that a rule contains', () => {
    const tasks = LIBRARY_SHEETS.map(({ task }) => task);
    expect(new Set(tasks).size).toBe(tasks.length);
    const asked = LIBRARY_RULES.flatMap(({ task, contains }) => [task, ...contains]);
    expect(asked.filter((task) => !tasks.includes(task))).toEqual([]);
  });

  test('passes the checks that rules and sheets of people pass', () => {
    for (const rule of LIBRARY_RULES) {
      const others = LIBRARY_RULES.filter(({ positionKind, task }) => positionKind === rule.positionKind && task !== rule.task);
      expect([rule.task, ruleFaults(rule, others)]).toEqual([rule.task, []]);
    }
    for (const { task, steps } of LIBRARY_SHEETS) expect([task, stepFaults(steps)]).toEqual([task, []]);
  });

  test('speaks of every machine of a UF skid, of cleaning, integrity and lay-up', () => {
    const places = new Set(LIBRARY_RULES.map(({ positionKind }) => positionKind));
    const notByRule = ['module', 'other'];
    expect(POSITION_KINDS.filter((kind) => !places.has(kind) && !notByRule.includes(kind))).toEqual([]);
    const kinds = new Set(LIBRARY_SHEETS.map(({ kind }) => kind));
    expect([...kinds].sort()).toEqual(
      ['calibration', 'clean', 'inspection', 'integrity test', 'lay-up', 'part change', 'preservative', 'repair', 'restart', 'service'].sort(),
    );
  });

  test('says of each rule where it comes from, and lets the maker’s manual win', () => {
    for (const { note } of LIBRARY_RULES) expect(note).toMatch(/^(Common practice|From ).*; the maker’s manual wins\.$/);
  });

  test('keeps people and water safe where a task is dangerous', () => {
    const dangerous = LIBRARY_SHEETS.filter(({ hazards }) => hazards.length > 0);
    expect(dangerous.filter(({ steps }) => !steps.some(({ safety }) => safety)).map(({ task }) => task)).toEqual([]);
    const toSupply = LIBRARY_SHEETS.filter(({ kind }) => kind === 'integrity test' || kind === 'restart' || kind === 'clean');
    for (const { task, steps } of toSupply) expect([task, steps.some(({ safety, text }) => safety && text.includes('supply'))]).toEqual([task, true]);
  });
});
