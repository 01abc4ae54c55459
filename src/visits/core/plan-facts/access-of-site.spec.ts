import { describe, expect, test } from '@jest/globals';
import { checkPlan } from '../planner/check-plan.js';
import type { PersonFacts, PlanFacts, SiteFacts, WorkFacts } from './facts.js';
import { inputFromFacts } from './input-from-facts.js';
import { reasonOfLine, whyOfLine } from './line-reason.js';
import { makePlan } from './make-plan.js';
import { linesOf } from './plan-lines.js';

const ada: PersonFacts = {
  id: 'ada',
  name: 'Ada',
  latitude: 50,
  longitude: 8,
  workDays: [1, 2, 3, 4, 5],
  shiftFrom: '06:00',
  regularUntil: '18:00',
  shiftUntil: '18:00',
  mostNights: 0,
  skills: [],
  daysOff: [],
};
const island: SiteFacts = { id: 'island', name: 'Island', latitude: 50.05, longitude: 8, windows: [], extraMinutes: 0, mayWorkAlone: true };
const work = (about: Partial<WorkFacts> = {}): WorkFacts => ({
  kind: 'job',
  id: 'job',
  siteId: 'island',
  text: 'Change the oil',
  urgent: false,
  earliestOn: null,
  bestOn: '2026-11-30',
  latestOn: '2026-11-30',
  partsFromOn: null,
  tasks: [{ minutes: 120, crew: 1, skills: [] }],
  ...about,
});
// A Monday to Friday, planned on the Sunday before.
const facts: PlanFacts = { firstDay: '2026-11-30', days: 5, today: '2026-11-29', people: [ada], sites: [island], work: [work()], visits: [] };
const at = (about: Partial<SiteFacts>, more: Partial<PlanFacts> = {}): PlanFacts => ({ ...facts, ...more, sites: [{ ...island, ...about }] });

function planned(of: PlanFacts) {
  const made = inputFromFacts(of);
  const { plan, reasons, faults } = makePlan(made.input, 1, () => 1);
  expect(faults).toEqual([]);
  const lines = linesOf(made.input, made.work, plan);
  return { input: made.input, plan, reasons, said: lines.map((line) => reasonOfLine(whyOfLine(made, line, lines), '2026-11-30', null)), tour: plan.tours[0] };
}

describe('how people get into a site bounds a plan', () => {
  test('by the notice that it wants: urgent work may come before, and the plan says so', () => {
    expect(planned(at({ noticeDays: 3 })).tour?.day).toBe(2);
    expect(planned(at({ noticeDays: 30 })).reasons).toEqual(['notice']);
    const urgent = planned(at({ noticeDays: 3 }, { work: [work({ urgent: true })] }));
    expect(urgent.tour?.day).toBe(0);
    expect(urgent.said[0]).toContain('comes before the notice that the site wants');
  });

  test('by the notice, but leaves a visit where it is that the site knows of', () => {
    const visit = { id: 'visit', siteId: 'island', text: 'Visit 1', onDay: '2026-12-01', startTime: '10:00', minutes: 60, personIds: ['ada'], skills: [] };
    const visits = [{ ...visit, earliestOn: null, latestOn: null, partsFromOn: null, promised: false, stays: false }];
    expect(planned(at({ noticeDays: 4 }, { work: [], visits })).tour).toMatchObject({ day: 1, stops: [{ start: 600 }] });
  });

  test('by inductions that everybody holds who goes, as long as they last', () => {
    const inductions = ['Induction Island'];
    const holder = (lastOn: string | null): PersonFacts => ({ ...ada, skills: [{ skill: 'Induction Island', lastOn }] });
    expect(planned(at({ inductions })).reasons).toEqual(['no induction']);
    expect(planned(at({ inductions }, { people: [ada, holder('2026-11-30')] })).tour).toMatchObject({ person: 1, day: 0 });
    expect(planned(at({ inductions, mayWorkAlone: false }, { people: [ada, holder(null)] })).reasons).toEqual(['no second person']);
  });

  test('by its ferry: nobody is there before the first arrival or after the last departure', () => {
    const ferry = { out: ['09:00', '13:00'], back: ['12:00', '16:00'], minutes: 45 };
    const { tour } = planned(at({ ferry }));
    expect(tour?.stops[0]?.start).toBe(9 * 60 + 45);
    expect(planned(at({ ferry }, { work: [work({ tasks: [{ minutes: 400, crew: 1, skills: [] }] })] })).reasons).toEqual(['ferry']);
  });

  test('by the months in which the road is open', () => {
    expect(planned(at({ openMonths: [12, 1] })).tour?.day).toBe(1);
    expect(planned(at({ openMonths: [6] })).reasons).toEqual(['season']);
  });
});

describe('the check of a plan', () => {
  const { input, plan } = planned(facts);
  const found = (about: object) => checkPlan({ ...input, work: input.work.map((item) => ({ ...item, ...about })) }, plan).map(({ text }) => text);

  test('sees by itself who comes without notice or induction', () => {
    expect(found({})).toEqual([]);
    expect(found({ noticeFrom: 2 })).toEqual(['comes before the notice that the site wants']);
    expect(found({ noticeFrom: 2, urgent: true })).toEqual([]);
    expect(found({ entry: ['Induction'] })).toEqual(['has no induction for the site']);
  });
});
