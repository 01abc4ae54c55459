import { describe, expect, test } from '@jest/globals';
import { checkPlan } from '../planner/check-plan.js';
import type { PersonFacts, PlanFacts, WorkFacts } from './facts.js';
import { inputFromFacts } from './input-from-facts.js';
import { whyOfLine } from './line-reason.js';
import { makePlan } from './make-plan.js';
import { overtimeBefore, type VisitBefore } from './overtime-before.js';
import { linesOf } from './plan-lines.js';
import { shiftsOfPerson } from './shifts-of-person.js';

const MONDAY = '2026-11-30';
const WEDNESDAY = '2026-12-02';
const visit = (about: Partial<VisitBefore> = {}): VisitBefore => ({
  siteId: 'near',
  onDay: MONDAY,
  startTime: '13:00',
  minutes: 180,
  personIds: ['ada'],
  endedAt: null,
  ...about,
});
const ada: PersonFacts = {
  id: 'ada',
  name: 'Ada',
  latitude: 50,
  longitude: 8,
  workDays: [1, 2, 3, 4, 5],
  shiftFrom: '06:00',
  regularUntil: '15:00',
  shiftUntil: '20:00',
  mostNights: 0,
  skills: [],
  daysOff: [],
  overtimeHoursAWeek: 6,
};
const before = (visits: readonly VisitBefore[], way: number | null = 30) => overtimeBefore(ada, visits, () => way);

describe('overtime before a plan', () => {
  test('is what the last visit of a day and the way home take after the regular end', () => {
    expect(before([visit()])).toEqual({ minutes: 90, estimated: true });
    expect(before([visit(), visit({ startTime: '08:00' })])).toEqual({ minutes: 90, estimated: true });
    expect(before([visit(), visit({ onDay: '2026-12-01' }), visit({ personIds: ['bo'] })])).toEqual({ minutes: 180, estimated: true });
    expect(before([visit({ startTime: '08:00' })])).toEqual({ minutes: 0, estimated: false });
  });

  test('is that of the job sheets where they have come, and estimated elsewhere', () => {
    expect(before([visit({ endedAt: 1000 })])).toEqual({ minutes: 130, estimated: false });
    expect(before([visit({ endedAt: 1000 }), visit({ onDay: '2026-12-01' })])).toEqual({ minutes: 220, estimated: true });
    expect(before([visit({ endedAt: 1000 })], null)).toEqual({ minutes: 100, estimated: true });
  });

  test('is taken off what the week allows, and the rest is shared by the days that are left', () => {
    const over = (minutes: number) => shiftsOfPerson(ada, WEDNESDAY, 7, new Map(), minutes).map((shift) => shift && shift.until - 15 * 60);
    expect(over(0)).toEqual([120, 120, 120, null, null, 72, 72]);
    expect(over(180)).toEqual([60, 60, 60, null, null, 72, 72]);
    expect(over(500)).toEqual([0, 0, 0, null, null, 72, 72]);
  });
});

describe('a plan that begins within a week', () => {
  const work: WorkFacts = {
    kind: 'job',
    id: 'long',
    siteId: 'near',
    text: 'Long',
    urgent: false,
    earliestOn: null,
    bestOn: WEDNESDAY,
    latestOn: WEDNESDAY,
    partsFromOn: null,
    tasks: [{ minutes: 580, crew: 1, skills: [] }],
  };
  const near = { id: 'near', name: 'near', latitude: 50.05, longitude: 8, windows: [], extraMinutes: 0, mayWorkAlone: true };
  const facts: PlanFacts = { firstDay: WEDNESDAY, days: 3, people: [ada], sites: [near], work: [work], visits: [] };
  const planned = (visitsBefore: readonly VisitBefore[]) => {
    const made = inputFromFacts({ ...facts, visitsBefore });
    const found = makePlan(made.input, 1, (done) => done / 100);
    expect(found.faults).toEqual([]);
    const lines = linesOf(made.input, made.work, found.plan);
    return { ...found, input: made.input, why: lines.map((line) => whyOfLine(made, line, lines).overtimeBefore) };
  };

  test('has less overtime left, says so, and leaves out what takes more', () => {
    expect(planned([])).toMatchObject({ reasons: [], why: [[]] });
    expect(planned([visit({ endedAt: 905 })])).toMatchObject({ reasons: [], why: [[{ name: 'Ada', estimated: false }]] });
    expect(planned([visit({ minutes: 400 })]).reasons).toEqual(['overtime limit']);
  });

  test('is checked for all of the week', () => {
    const { input, plan } = planned([]);
    const found = (had: number) =>
      checkPlan({ ...input, people: input.people.map((person) => ({ ...person, overtime: person.overtime && { ...person.overtime, before: had } })) }, plan);
    expect(found(0)).toEqual([]);
    for (const had of [350, 400]) expect(found(had).map(({ text }) => text)).toEqual(['has more overtime in the week than is allowed']);
  });
});
