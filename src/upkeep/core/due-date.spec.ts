import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { dayPlus, daysBetween } from '../../shared/day.js';
import { type DueRule, dueDate, type LastDone, type LifeCounter, usualGraceDays } from './due-date.js';
import { nextDueAt } from './next-due-at.js';

const rule = (hours: number | null, days: number | null, more: Partial<DueRule> = {}): DueRule => ({
  use: hours === null ? {} : { 'run hours': hours },
  days,
  base: 'floating',
  graceDays: 0,
  ...more,
});
const done = (day: string, hours: number, more: Partial<LastDone> = {}): LastDone => ({ day, use: { 'run hours': hours }, ...more });
const hours = (life: number, asOf: string, dailyUse: number | null): { 'run hours': LifeCounter } => ({ 'run hours': { life, asOf, dailyUse } });

describe('the due date of a task on two limits', () => {
  // Values computed apart from the rule of thumb min(last day + D, now + floor((last + H - now) / daily use)).
  test.each([
    ['hours come first', 2000, 365, 4900, '2025-03-01', 18, { dueOn: '2025-05-01', limit: 'run hours', left: 1100, calendar: '2026-01-10', use: '2025-05-01' }],
    [
      'the calendar comes first on a standby pump',
      2000,
      180,
      4100,
      '2025-03-01',
      2,
      { dueOn: '2025-07-09', limit: 'calendar', left: 1900, calendar: '2025-07-09', use: '2027-10-07' },
    ],
    [
      'a limit passed by 150 h lies in the past',
      2000,
      365,
      6150,
      '2025-05-20',
      18,
      { dueOn: '2025-05-11', limit: 'run hours', left: -150, calendar: '2026-01-10', use: '2025-05-11' },
    ],
    [
      'without use only the calendar counts',
      2000,
      365,
      4000,
      '2025-03-01',
      0,
      { dueOn: '2026-01-10', limit: 'calendar', left: 2000, calendar: '2026-01-10', use: null },
    ],
  ])('%s', (_, interval, days, life, asOf, dailyUse, expected) => {
    const due = dueDate(rule(interval, days), done('2025-01-10', 4000), hours(life, asOf, dailyUse), asOf);
    expect({ dueOn: due.dueOn, limit: due.limit }).toEqual({ dueOn: expected.dueOn, limit: expected.limit });
    expect(due.byLimit).toMatchObject([
      { limit: 'run hours', unit: 'h', left: expected.left, dueOn: expected.use },
      { limit: 'calendar', unit: 'days', left: daysBetween(asOf, expected.calendar), dueOn: expected.calendar },
    ]);
  });

  test('is undefined, and not far away, where nothing runs and no calendar holds', () => {
    expect(dueDate(rule(2000, null), done('2025-01-10', 4000), hours(4000, '2025-03-01', 0), '2025-03-01')).toMatchObject({
      dueOn: null,
      limit: null,
      earliestOn: null,
      latestOn: null,
    });
    expect(dueDate(rule(2000, null), done('2025-01-10', 4000), {}, '2025-03-01')).toMatchObject({ dueOn: null, byLimit: [{ left: null, now: null }] });
    expect(dueDate(rule(null, null), done('2025-01-10', 4000), {}, '2025-03-01')).toMatchObject({ dueOn: null, byLimit: [] });
  });

  test('a limit that was passed before the machine stood still is due on the day of its reading', () => {
    expect(dueDate(rule(2000, null), done('2025-01-10', 4000), hours(6100, '2025-03-01', 0), '2025-03-20')).toMatchObject({
      dueOn: '2025-03-01',
      limit: 'run hours',
    });
  });

  test('days laid up move the calendar on, and there is no day while the skid still is', () => {
    const laidUp = [{ from: '2025-03-01', to: '2025-05-01' }];
    expect(dueDate(rule(null, 180, { notCounted: laidUp }), done('2025-01-01', 0), {}, '2025-05-10')).toMatchObject({
      dueOn: '2025-08-30',
      byLimit: [{ now: 68, left: 112 }],
    });
    expect(dueDate(rule(null, 180, { notCounted: [{ from: '2025-03-01', to: null }] }), done('2025-01-01', 0), {}, '2025-05-10').dueOn).toBeNull();
    expect(dueDate(rule(null, 30, { notCounted: [{ from: '2025-03-01', to: null }] }), done('2025-01-01', 0), {}, '2025-05-10').dueOn).toBe('2025-01-31');
  });

  test('an outlook or a condition comes first where its day is the earliest', () => {
    const cip = { from: 'outlook', limit: 'permeability', dueOn: '2025-03-20', earliestOn: '2025-03-06', latestOn: '2025-03-28', inWords: 'soon' } as const;
    const due = (days: number) => dueDate(rule(null, days), done('2025-01-01', 0), {}, '2025-03-01', [cip]);
    expect(due(180)).toMatchObject({ dueOn: '2025-03-20', earliestOn: '2025-03-06', latestOn: '2025-03-28', limit: 'permeability' });
    expect(due(60)).toMatchObject({ dueOn: '2025-03-02', limit: 'calendar' });
    expect(dueDate(rule(null, null), done('2025-01-01', 0), {}, '2025-03-01', [{ ...cip, dueOn: null }]).dueOn).toBeNull();
  });

  test('counts starts and cycles like hours', () => {
    const counters = { starts: { life: 900, asOf: '2025-03-01', dailyUse: 10 }, cycles: { life: 9_500, asOf: '2025-03-01', dailyUse: 40 } };
    const due = dueDate(
      rule(null, 365, { use: { starts: 1000, cycles: 10_000 } }),
      { day: '2025-01-01', use: { starts: 0, cycles: 0 } },
      counters,
      '2025-03-01',
    );
    expect(due).toMatchObject({ dueOn: '2025-03-11', limit: 'starts' });
    expect(due.byLimit.map(({ dueOn }) => dueOn)).toEqual(['2025-03-11', '2025-03-13', '2026-01-01']);
  });

  test('may be met a tenth of the interval early and the grace late', () => {
    expect(dueDate(rule(null, 180, { graceDays: 7 }), done('2025-01-01', 0), {}, '2025-03-01')).toMatchObject({
      dueOn: '2025-06-30',
      earliestOn: '2025-06-12',
      latestOn: '2025-07-07',
    });
    expect(dueDate(rule(null, 60, { graceDays: null }), done('2025-01-01', 0), {}, '2025-02-01')).toMatchObject({
      dueOn: '2025-03-02',
      latestOn: '2025-03-14',
    });
  });

  test('on a fixed plan an overrun shortens the next interval, by hours and by days', () => {
    const last = done('2025-02-10', 1540, { plannedUse: { 'run hours': 1500 }, plannedDay: '2025-02-01' });
    const due = dueDate(rule(500, 90, { base: 'fixed' }), last, hours(1600, '2025-02-14', 20), '2025-02-14');
    expect(due.byLimit).toMatchObject([{ left: 400, dueOn: '2025-03-06' }, { dueOn: '2025-05-02' }]);
  });

  const anyCase = fc.record({
    interval: fc.integer({ min: 100, max: 9000 }),
    days: fc.integer({ min: 10, max: 900 }),
    run: fc.integer({ min: 0, max: 9000 }),
    dailyUse: fc.double({ min: 0.1, max: 24, noNaN: true }),
  });
  const dueOf = ({ interval, days, run, dailyUse }: { interval: number; days: number; run: number; dailyUse: number }) =>
    dueDate(rule(interval, days), done('2025-01-10', 4000), hours(4000 + run, '2025-03-01', dailyUse), '2025-03-01').dueOn ?? '';

  test('is never later than either limit, and never earlier for a longer interval or less use', () => {
    fc.assert(
      fc.property(anyCase, (given) => {
        const dueOn = dueOf(given);
        expect(dueOn <= dayPlus('2025-01-10', given.days)).toBe(true);
        expect(dueOf({ ...given, interval: given.interval + 100 }) >= dueOn).toBe(true);
        expect(dueOf({ ...given, days: given.days + 1 }) >= dueOn).toBe(true);
        if (given.run <= given.interval) expect(dueOf({ ...given, dailyUse: given.dailyUse / 2 }) >= dueOn).toBe(true);
      }),
      { numRuns: 60 },
    );
  });
});

describe('the next point of a plan', () => {
  test.each([
    ['fixed, 40 late: the next interval is 460', 'fixed', 1500, 1540, 2000],
    ['floating, 40 late', 'floating', 1500, 1540, 2040],
    ['fixed, a little early: the plan stays', 'fixed', 1500, 1460, 2000],
    ['fixed, far too early: a new plan begins', 'fixed', 1500, 1300, 1800],
    ['fixed, more than an interval late: the next point that lies ahead', 'fixed', 1500, 2600, 3000],
    ['fixed, the first time', 'fixed', null, 1300, 1800],
  ] as const)('%s', (_, base, plannedAt, doneAt, next) => {
    expect(nextDueAt({ base, plannedAt, doneAt, interval: 500 })).toBe(next);
  });
});

describe('the usual grace', () => {
  // Table of an on-time rule (20 % of the interval, 28 days at most) as quoted in a practitioner's page.
  test.each([
    [28, 6],
    [30, 6],
    [42, 8],
    [56, 11],
    [60, 12],
    [90, 18],
    [120, 24],
    [182, 28],
    [730, 28],
  ])('of %d days is %d', (interval, grace) => {
    expect(usualGraceDays(interval)).toBe(grace);
  });
});
