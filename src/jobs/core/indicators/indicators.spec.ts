import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { availability } from './availability.js';
import { backlogs, weeklyCrewHours } from './backlog.js';
import { type BreakdownFact, downSpan, isFailure } from './breakdown-fact.js';
import { doneInTime } from './done-in-time.js';
import { meanTimeBetweenFailures } from './mean-time-between-failures.js';
import { meanRepairTime, meanTimeToRestoration } from './mean-times-to-repair.js';
import { mostEvents } from './most-events.js';
import { preventiveShares } from './preventive-share.js';
import { requiredSpans } from './required-time.js';
import { hoursInBoth, merged, type Span } from './spans.js';

const day = (number: number) => new Date(Date.UTC(2025, 0, number));
const span = (from: number, to: number): Span => ({ from: day(from), to: day(to) });
const breakdown = (about: Partial<BreakdownFact> = {}): BreakdownFact => ({
  skidId: 's',
  severity: 'no water',
  noticedAt: day(2),
  downFrom: null,
  restoredAt: null,
  repairMinutes: null,
  ended: true,
  ofTank: false,
  ...about,
});

describe('published check values', () => {
  // A worked example of a maintenance text: 3,600 h, 12 failures, 720 min of repair
  test('mean time between failures 300 h, mean repair time 1 h', () => {
    expect(meanTimeBetweenFailures('operating', 3600, 12, 'all').value).toBe(300);
    expect(meanRepairTime(Array.from({ length: 12 }, () => breakdown({ repairMinutes: 60 }))).value).toBe(1);
  });

  // Computed apart from this code, by chi-squared quantiles
  test('90 % lower limit 202.457 h of the same, time-terminated; no failure in 5,000 h: rate below 5.9915e-4 /h with 95 %', () => {
    expect(meanTimeBetweenFailures('operating', 3600, 12, 'all').lowerLimit).toBeCloseTo(202.456635403724, 6);
    expect(mostEvents(0, 0.95) / 5000).toBeCloseTo(0.0005991464547107979, 12);
  });

  // Inherent availability MTBF / (MTBF + MTTR) = 300 / 301
  test('availability 99.66777 %', () => expect(availability({ requiredHours: 301, downHours: 1, unknownStops: 0 }).value).toBeCloseTo(99.66777408637874, 9));

  // A worked example of a maintenance text: 318 of 384 orders
  test('planned work done in time 82.8125 %', () => expect(doneInTime(318, 384).value).toBe(82.8125));

  // A forum of planners for the formula: 600 h over 4 people of 40 h at three quarters
  test('backlog of 600 h for four people 5 weeks', () => {
    expect(backlogs({ readyHours: 450, waitingHours: 150, untimedTasks: 0 }, weeklyCrewHours(4)).map(({ value }) => value)).toEqual([5, 3.75]);
  });
});

describe('mean time between failures', () => {
  test('has a lower limit and no mean where nothing failed', () => {
    const { value, lowerLimit, tooLittle } = meanTimeBetweenFailures('in service', 5000, 0, 'all');
    expect(value).toBeNull();
    expect(lowerLimit).toBeCloseTo(5000 / Math.log(10), 6);
    expect(tooLittle).toBe('No failure in this time, so there is no mean: with 90 % confidence it is longer than 2,171 h.');
  });

  test('says that little is known of few failures, and nothing without hours', () => {
    expect(meanTimeBetweenFailures('operating', 5000, 1, 'all').tooLittle).toMatch(/^One failure alone/);
    expect(meanTimeBetweenFailures('operating', 5000, 8, 'all').tooLittle).toBeNull();
    expect(meanTimeBetweenFailures('operating', 0, 3, 'all')).toMatchObject({
      value: null,
      lowerLimit: null,
      tooLittle: expect.stringContaining('no hour of filtration'),
    });
  });

  test('lies above its lower limit, the closer the more failures there were', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 200 }), fc.double({ min: 0.55, max: 0.999, noNaN: true }), (events, confidence) => {
        expect(mostEvents(events, confidence)).toBeGreaterThan(events);
        expect(mostEvents(events, confidence) / events).toBeGreaterThan(mostEvents(events * 4, confidence) / (events * 4));
      }),
      { numRuns: 25 },
    );
  });
});

describe('what counts as a failure', () => {
  test('is a stop, or on request every breakdown; a tank that ran low never is', () => {
    expect(isFailure(breakdown(), 'stops')).toBe(true);
    expect(isFailure(breakdown({ severity: 'can wait' }), 'stops')).toBe(false);
    expect(isFailure(breakdown({ severity: 'can wait', downFrom: day(2) }), 'stops')).toBe(true);
    expect(isFailure(breakdown({ severity: 'can wait' }), 'all')).toBe(true);
    expect(isFailure(breakdown({ severity: 'less water', ofTank: true }), 'all')).toBe(false);
  });

  test('is down until it is restored, until now while it is open, and for a time that nobody knows where it ended without a word', () => {
    expect(downSpan(breakdown({ downFrom: day(2), restoredAt: day(3) }), day(9))).toEqual(span(2, 3));
    expect(downSpan(breakdown({ downFrom: day(2), ended: false }), day(9))).toEqual(span(2, 9));
    expect(downSpan(breakdown({ downFrom: day(2) }), day(9))).toBeNull();
    expect(downSpan(breakdown({ restoredAt: day(3) }), day(9))).toBeNull();
  });
});

describe('the time to restoration', () => {
  test('holds the wait, and leaves out failures of which a time is not known', () => {
    const { value, denominator, remarks } = meanTimeToRestoration([breakdown({ downFrom: day(2), restoredAt: day(3), repairMinutes: 60 }), breakdown()]);
    expect([value, denominator.value, remarks]).toEqual([24, 1, ['1 failure without both times: not in this figure.']]);
    expect(meanTimeToRestoration([breakdown()])).toMatchObject({ value: null, tooLittle: expect.any(String) });
  });
});

describe('the time asked for', () => {
  const record = { changes: [], state: 'in service', commissionedAt: null, endedAt: null } as const;
  const hours = (about: object) => hoursInBoth(requiredSpans({ ...record, ...about }, span(1, 11)), [span(1, 11)]);

  test('is the time in service', () => {
    expect(hours({})).toBe(240);
    expect(hours({ commissionedAt: day(6) })).toBe(120);
    expect(hours({ endedAt: day(6) })).toBe(120);
    expect(hours({ state: 'laid up' })).toBe(0);
  });

  test('leaves out lay-up and out of service', () => {
    const changes = [
      { at: day(3), state: 'laid up' },
      { at: day(6), state: 'in service' },
      { at: day(9), state: 'out of service' },
    ];
    expect(hours({ changes })).toBe((2 + 3) * 24);
  });

  test('begins with the first service on record where no commissioning is', () => {
    expect(hours({ changes: [{ at: day(6), state: 'in service' }] })).toBe(120);
    expect(hours({ changes: [{ at: day(6), state: 'in service' }], commissionedAt: day(4) })).toBe(168);
  });
});

describe('spans', () => {
  test('that overlap count each hour once', () => {
    expect(merged([span(4, 6), span(1, 3), span(2, 5), span(8, 8)])).toEqual([span(1, 6)]);
    expect(hoursInBoth([span(1, 11)], [span(2, 4), span(3, 5)])).toBe(72);
  });

  test('share no more hours than either has, whichever is named first', () => {
    const spans = fc.array(
      fc.tuple(fc.nat(60), fc.nat(20)).map(([from, days]) => span(from, from + days)),
      { maxLength: 6 },
    );
    fc.assert(
      fc.property(spans, spans, (some, others) => {
        const both = hoursInBoth(some, others);
        expect(both).toBe(hoursInBoth(others, some));
        expect(both).toBeLessThanOrEqual(hoursInBoth(some, some));
      }),
      { numRuns: 50 },
    );
  });
});

describe('the share of preventive work', () => {
  test('is told by hours and by jobs', () => {
    const [byHours, byJobs] = preventiveShares([
      { kind: 'service', jobs: 1, hours: 6 },
      { kind: 'breakdown', jobs: 2, hours: 1 },
      { kind: 'follow-up', jobs: 1, hours: 1 },
    ]);
    expect([byHours.value, byJobs.value]).toEqual([75, 25]);
    expect(preventiveShares([])[1].tooLittle).toBe('No job was finished in this time.');
  });
});

test('a backlog says which tasks it leaves out, and that a crew without hours never gets through', () => {
  const [all] = backlogs({ readyHours: 1, waitingHours: 0, untimedTasks: 2 }, 0);
  expect(all).toMatchObject({
    value: null,
    tooLittle: expect.stringContaining('no hours'),
    remarks: ['2 tasks without an expected time: not in this figure.'],
  });
});
