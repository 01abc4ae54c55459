import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { dayPlus, daysBetween } from '../../shared/day.js';
import { addWeeks, type ComingTask, mondayOf, workAhead } from './work-ahead.js';

const TODAY = '2026-11-25';
const task = (name: string, inDays: number, everyDays: number | null, contains: readonly string[] = []): ComingTask => ({
  task: name,
  kind: 'service',
  contains,
  dueOn: dayPlus(TODAY, inDays),
  earliestOn: dayPlus(TODAY, inDays - 7),
  latestOn: dayPlus(TODAY, inDays + 7),
  everyDays,
  personMinutes: 60,
});
const timesOf = (name: string, ...tasks: readonly ComingTask[]) =>
  workAhead(tasks, TODAY).flatMap(({ week, detail }) =>
    detail.filter((line) => line.task === name).map(({ times }) => [daysBetween('2026-11-23', week), times]),
  );

describe('the work of the coming year', () => {
  test('repeats each task after its interval, in the week of its day', () => {
    expect(timesOf('grease', task('grease', 0, 90))).toEqual([
      [0, 1],
      [91, 1],
      [182, 1],
      [266, 1],
      [357, 1],
    ]);
    expect(timesOf('walk', task('walk', 1, 3)).slice(0, 3)).toEqual([
      [0, 2],
      [7, 2],
      [14, 2],
    ]);
  });

  test('holds what is late once, in this week, and what comes once, once', () => {
    expect(timesOf('grease', task('grease', -400, null))).toEqual([[0, 1]]);
    expect(timesOf('clean', task('clean', 30, null))).toEqual([[28, 1]]);
    expect(timesOf('clean', task('clean', 500, null))).toEqual([]);
  });

  test('a larger service takes the smaller with it and begins its count anew', () => {
    const overhaul = task('overhaul', 12, 360, ['grease']);
    expect(timesOf('grease', task('grease', 10, 90), overhaul).map(([day]) => day)).toEqual([98, 189, 280]);
    expect(timesOf('overhaul', task('grease', 10, 90), overhaul).map(([day]) => day)).toEqual([14]);
    // done between two times of the smaller, it moves the next
    expect(timesOf('grease', task('grease', 10, 90), task('overhaul', 50, null, ['grease'])).map(([day]) => day)).toEqual([7, 140, 231, 322]);
  });

  test('never asks for more than the plain intervals would, nor for work before today', () => {
    fc.assert(
      fc.property(fc.integer({ min: -50, max: 400 }), fc.integer({ min: 1, max: 200 }), fc.integer({ min: 0, max: 400 }), (dueIn, every, largeIn) => {
        const plain = workAhead([task('grease', dueIn, every)], TODAY).reduce((sum, { tasks }) => sum + tasks, 0);
        const nested = workAhead([task('grease', dueIn, every), task('overhaul', largeIn, 360, ['grease'])], TODAY);
        const small = nested.flatMap(({ detail }) => detail.filter((line) => line.task === 'grease')).reduce((sum, { times }) => sum + times, 0);
        expect(small).toBeLessThanOrEqual(plain);
        expect(nested.every(({ week }) => week >= mondayOf(TODAY))).toBe(true);
      }),
      { numRuns: 60 },
    );
  });

  test('of several places adds up by week and kind, with each task named once', () => {
    const weeks = addWeeks([workAhead([task('grease', 0, null)], TODAY), workAhead([{ ...task('grease', 1, null), personMinutes: 30 }], TODAY)]);
    expect(weeks).toEqual([{ week: '2026-11-23', kind: 'service', hours: 1.5, tasks: 2, detail: [{ task: 'grease', times: 2, hours: 1.5 }] }]);
  });
});
