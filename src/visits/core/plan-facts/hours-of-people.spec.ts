import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { checkPlan } from '../planner/check-plan.js';
import type { PersonFacts, PlanFacts, WorkFacts } from './facts.js';
import { inputFromFacts } from './input-from-facts.js';
import { makePlan } from './make-plan.js';
import { shiftsOfPerson } from './shifts-of-person.js';

const ada: PersonFacts = {
  id: 'ada',
  name: 'Ada',
  latitude: 50,
  longitude: 8,
  workDays: [1, 2, 3, 4, 5],
  shiftFrom: '06:00',
  regularUntil: '15:00',
  shiftUntil: '20:00',
  mostNights: 2,
  skills: [],
  daysOff: [],
};
const bo: PersonFacts = { ...ada, id: 'bo', name: 'Bo' };
const site = (id: string, latitude: number) => ({ id, name: id, latitude, longitude: 8, windows: [], extraMinutes: 0, mayWorkAlone: true });
const work = (id: string, minutes: number, about: Partial<WorkFacts> = {}): WorkFacts => ({
  kind: 'job',
  id,
  siteId: 'near',
  text: id,
  urgent: false,
  earliestOn: null,
  bestOn: '2026-11-30',
  latestOn: '2026-11-30',
  partsFromOn: null,
  tasks: [{ minutes, crew: 1, skills: [] }],
  ...about,
});
// A Monday to the Sunday after the next.
const facts: PlanFacts = { firstDay: '2026-11-30', days: 14, people: [ada], sites: [site('near', 50.05), site('far', 53)], work: [], visits: [] };
const until = (person: PersonFacts) => shiftsOfPerson(person, facts.firstDay, 7, new Map()).map((shift) => (shift === null ? null : shift.until / 60));
const planned = (of: PlanFacts, steps = 200) => {
  const { input, work: placed } = inputFromFacts(of);
  const { plan, reasons, faults } = makePlan(input, 1, (done) => done / steps);
  expect(faults).toEqual([]);
  return { input, plan, reasons, who: (id: string) => plan.tours.find(({ stops }) => stops.some((stop) => placed[stop.work]?.id === id))?.person };
};

describe('the hours of people', () => {
  test('end so early before a day of work that the rest is kept', () => {
    expect(until({ ...ada, restHours: 11 })).toEqual([19, 19, 19, 19, 20, null, null]);
    expect(until({ ...ada, restHours: 10 })).toEqual([20, 20, 20, 20, 20, null, null]);
  });

  test('share the overtime of a week by its days of work', () => {
    expect(until({ ...ada, overtimeHoursAWeek: 5 })).toEqual([16, 16, 16, 16, 16, null, null]);
    const monday = shiftsOfPerson({ ...ada, overtimeHoursAWeek: 5 }, facts.firstDay, 7, new Map([[0, 150]]));
    expect(monday.slice(0, 3).map((shift) => (shift?.until ?? 0) - 15 * 60)).toEqual([180, 30, 30]);
  });

  test('let no plan have too little rest or too much overtime, however much there is to do', () => {
    const drawn = fc.record({
      minutes: fc.array(fc.integer({ min: 60, max: 500 }), { minLength: 4, maxLength: 12 }),
      rest: fc.integer({ min: 8, max: 13 }),
      over: fc.integer({ min: 0, max: 12 }),
    });
    fc.assert(
      fc.property(drawn, ({ minutes, rest, over }) => {
        const items = minutes.map((each, at) => work(`${at}`, each, { siteId: at % 3 === 0 ? 'far' : 'near' }));
        const { plan } = planned({ ...facts, people: [{ ...ada, restHours: rest, overtimeHoursAWeek: over }], work: items }, 64);
        for (const week of [0, 1]) {
          const own = plan.tours.filter(({ day }) => Math.floor(day / 7) === week);
          expect(own.reduce((sum, { back }) => sum + Math.max(0, back - 900), 0)).toBeLessThanOrEqual(over * 60 + 1e-6);
        }
      }),
      { numRuns: 12 },
    );
  });

  test.each([
    ['rest', { restHours: 13 }, 680],
    ['overtime limit', { overtimeHoursAWeek: 0 }, 680],
  ] as const)('are named where they alone keep work out: %s', (reason, about, minutes) => {
    expect(planned({ ...facts, days: 3, work: [work('long', minutes)] }).reasons).toEqual([]);
    expect(planned({ ...facts, days: 3, people: [{ ...ada, ...about }], work: [work('long', minutes)] }).reasons).toEqual([reason]);
  });

  test('on call give urgent work to whoever is on call, and no night away', () => {
    const onCall = [{ from: '2026-11-30', until: '2026-12-06' }];
    for (const on of [ada, bo]) {
      const people = [ada, bo].map((person) => (person === on ? { ...person, onCall } : person));
      expect(planned({ ...facts, people, work: [work('urgent', 60, { urgent: true })] }).who('urgent')).toBe(people.findIndex(({ id }) => id === on.id));
    }
    const far = work('far', 400, { siteId: 'far' });
    const { plan } = planned({ ...facts, days: 7, work: [far] });
    expect(plan.tours.some(({ endPlace }) => endPlace !== 0)).toBe(true);
    expect(planned({ ...facts, days: 7, people: [{ ...ada, onCall }], work: [far] }).reasons).toEqual(['on call']);
  });
});

describe('the check of a plan', () => {
  const { input, plan } = planned({ ...facts, days: 5, work: [work('far', 400, { siteId: 'far', latestOn: null }), work('near', 500, { latestOn: null })] });
  const found = (about: object) => checkPlan({ ...input, people: input.people.map((person) => ({ ...person, ...about })) }, plan).map(({ text }) => text);

  test('sees too little rest, too much overtime and nights of those on call by itself', () => {
    expect(found({})).toEqual([]);
    expect(found({ restMinutes: 23 * 60 })).toContain('has too little rest before the next day');
    expect(
      found({ shifts: input.people[0]?.shifts.map((shift) => shift && { ...shift, regularUntil: 360 }), overtime: { minutes: 60, weekOf: [0, 0, 0, 0, 0] } }),
    ).toContain('has more overtime in the week than is allowed');
    expect(found({ onCall: [true, true, true, true, true] })).toContain('is away overnight while on call');
  });
});
