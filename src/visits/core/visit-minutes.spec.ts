import { expect, test } from '@jest/globals';
import fc from 'fast-check';
import { visitMinutes } from './visit-minutes.js';

const task = fc.record({ minutes: fc.option(fc.integer({ min: 1, max: 600 })), crew: fc.integer({ min: 1, max: 4 }) });

test('more people are never slower, and never faster than the longest task', () => {
  fc.assert(
    fc.property(fc.array(task, { maxLength: 12 }), fc.integer({ min: 1, max: 6 }), (tasks, people) => {
      const minutes = visitMinutes(tasks, people);
      expect(visitMinutes(tasks, people + 1)).toBeLessThanOrEqual(minutes);
      expect(minutes).toBeGreaterThanOrEqual(Math.max(0, ...tasks.map((each) => each.minutes ?? 60)));
    }),
    { numRuns: 200 },
  );
});

test('a task that needs two takes one alone twice as long', () => {
  expect(visitMinutes([{ minutes: 90, crew: 2 }], 2)).toBe(90);
  expect(visitMinutes([{ minutes: 90, crew: 2 }], 1)).toBe(180);
});
