import { describe, expect, test } from '@jest/globals';
import type { PersonFacts, PlanFacts, WorkFacts } from './facts.js';
import { inputFromFacts } from './input-from-facts.js';
import { makePlan } from './make-plan.js';

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
const site = { id: 'site', name: 'Site', latitude: 50.1, longitude: 8, windows: [], extraMinutes: 0, mayWorkAlone: true };
const clean: WorkFacts = {
  kind: 'due',
  id: 'clean',
  siteId: 'site',
  text: 'Clean',
  urgent: false,
  earliestOn: null,
  bestOn: '2026-11-30',
  latestOn: '2026-11-30',
  partsFromOn: null,
  waiting: [80, 30, 5, 0, 400],
  tasks: [{ minutes: 60, crew: 1, skills: [] }],
};
const rates = { currency: 'EUR', workHour: 60, travelHour: 60, overtimeHour: 0, kilometre: 0, nightAway: 0 };
// A Monday.
const facts: PlanFacts = { firstDay: '2026-11-30', days: 5, people: [ada], sites: [site], work: [clean], visits: [], rates };
const dayOf = (of: PlanFacts) => makePlan(inputFromFacts(of).input, 1, () => 1).plan.tours[0]?.day;

describe('what waiting costs', () => {
  test('takes the place of best and latest day where rates weigh it, and of nothing where they do not', () => {
    expect(dayOf(facts)).toBe(3);
    expect(dayOf({ ...facts, rates: null })).toBe(0);
    expect(dayOf({ ...facts, work: [{ ...clean, waiting: undefined }] })).toBe(0);
  });

  test('never brings work on a day before the earliest', () => {
    expect(dayOf({ ...facts, work: [{ ...clean, earliestOn: '2026-12-04' }] })).toBe(4);
  });

  test('however much it is leaves work out no sooner than it puts it on its dearest day', () => {
    const dear = { ...clean, waiting: [0, 1_000_000, 1_000_000, 1_000_000, 1_000_000] };
    const away = { ...ada, daysOff: [{ from: '2026-11-30', until: '2026-12-03' }] };
    expect(dayOf({ ...facts, people: [away], work: [dear] })).toBe(4);
  });
});
