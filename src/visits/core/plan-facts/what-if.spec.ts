import { describe, expect, test } from '@jest/globals';
import type { PersonFacts, PlanFacts, WorkFacts } from './facts.js';
import { inputFromFacts } from './input-from-facts.js';
import { makePlan } from './make-plan.js';
import { withAllLater, withOneMore, withSomeLater } from './what-if.js';

const ada: PersonFacts = {
  id: 'ada',
  name: 'Ada',
  latitude: 50,
  longitude: 8,
  workDays: [1, 2, 3, 4, 5],
  shiftFrom: '08:00',
  regularUntil: '16:00',
  shiftUntil: '16:00',
  mostNights: 0,
  skills: [],
  daysOff: [],
};
const site = { id: 'site', name: 'Site', latitude: 50.3, longitude: 8, windows: [], extraMinutes: 10, mayWorkAlone: true };
const work = (id: string, skills: readonly string[] = []): WorkFacts => ({
  kind: 'job',
  id,
  siteId: 'site',
  text: id,
  urgent: false,
  earliestOn: null,
  bestOn: null,
  latestOn: '2026-12-01',
  partsFromOn: null,
  tasks: [{ minutes: 300, crew: 1, skills }],
});
// A Tuesday.
const facts: PlanFacts = { firstDay: '2026-12-01', days: 1, people: [ada], sites: [site], work: [work('one'), work('two', ['Pumps'])], visits: [] };
const leftOut = (of: PlanFacts) => {
  const made = inputFromFacts(of);
  return makePlan(made.input, 1, () => 1).plan.leftOut.map((at) => made.work[at]?.id);
};

describe('what if', () => {
  test('one more did what nobody can or has time for, with the ways of whoever they are like', () => {
    expect(leftOut(facts)).toEqual(['two']);
    expect(leftOut(withOneMore(facts, { likePersonId: 'ada', skills: [] }))).toEqual(['two']);
    const more = withOneMore(facts, { likePersonId: 'ada', skills: ['Pumps'] });
    expect(leftOut(more)).toEqual([]);
    const { travel } = inputFromFacts(facts).input;
    const given = withOneMore({ ...facts, travel }, { likePersonId: 'ada', skills: ['Pumps'] });
    expect([...(given.travel?.minutes ?? [])]).toEqual([0, 0, travel.minutes[1], 0, 0, travel.minutes[1], travel.minutes[2], travel.minutes[2], 0]);
    expect(withOneMore(facts, { likePersonId: 'nobody', skills: [] })).toBe(facts);
  });

  test('all came later', () => {
    const week = { ...facts, days: 8 };
    const days = (of: PlanFacts) => makePlan(inputFromFacts(of).input, 1, () => 1).plan.tours.map(({ day }) => day);
    expect(days(week)).toEqual([0]);
    expect(days(withAllLater(week, 7))).toEqual([7]);
  });

  test('one piece of work came later, and parts that come later still are waited for', () => {
    const [one, two] = [{ ...work('one'), partsFromOn: '2026-12-05' }, work('two')];
    const partsFrom = (from: string) => withSomeLater({ ...facts, work: [one, two] }, [{ id: 'one', from }]).work.map(({ partsFromOn }) => partsFromOn);
    expect(partsFrom('2026-12-08')).toEqual(['2026-12-08', null]);
    expect(partsFrom('2026-12-03')).toEqual(['2026-12-05', null]);
  });
});
