import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { checkPlan } from '../planner/check-plan.js';
import type { PersonFacts, PlanFacts, WorkFacts } from './facts.js';
import { inputFromFacts } from './input-from-facts.js';
import { makePlan } from './make-plan.js';
import { withChanges } from './with-changes.js';

const FIRST = '2026-11-30';
const person = (id: string, about: Partial<PersonFacts> = {}): PersonFacts => ({
  id,
  name: id,
  latitude: 50,
  longitude: 8,
  workDays: [1, 2, 3, 4, 5],
  shiftFrom: '08:00',
  regularUntil: '17:00',
  shiftUntil: '17:00',
  mostNights: 0,
  skills: [],
  daysOff: [],
  ...about,
});
const inVanOf = (id: string, fromOn: string | null = null) => ({ personId: id, name: id, fromOn });
const work = (id: string, about: Partial<WorkFacts> = {}): WorkFacts => ({
  kind: 'job',
  id,
  siteId: 'near',
  text: id,
  urgent: false,
  earliestOn: null,
  bestOn: FIRST,
  latestOn: null,
  partsFromOn: '2026-12-01',
  partsInVans: [inVanOf('Ada')],
  tasks: [{ minutes: 60, crew: 1, skills: [] }],
  ...about,
});
const site = (mayWorkAlone = true) => ({ id: 'near', name: 'near', latitude: 50.05, longitude: 8, windows: [], extraMinutes: 0, mayWorkAlone });
const facts = (about: Partial<PlanFacts>): PlanFacts => ({
  firstDay: FIRST,
  days: 2,
  people: [person('Ada'), person('Bo')],
  sites: [site()],
  work: [],
  visits: [],
  ...about,
});
const planned = (of: PlanFacts, steps = 100) => {
  const { input, work: placed } = inputFromFacts(of);
  const { plan, reasons, faults } = makePlan(input, 1, (done) => done / steps);
  expect(faults).toEqual([]);
  const where = plan.tours.flatMap(({ person: who, day, stops }) => stops.map((stop) => [placed[stop.work]?.id, input.people[who]?.name, day]));
  return { input, plan, reasons, where };
};

describe('work whose parts are in a van', () => {
  test('is done by its person before they can be handed over, and by anybody afterwards', () => {
    expect(planned(facts({ work: [work('a')] })).where).toEqual([['a', 'Ada', 0]]);
    const away = person('Ada', { daysOff: [{ from: FIRST, until: FIRST }] });
    expect(planned(facts({ people: [away, person('Bo')], work: [work('a')] })).where).toMatchObject([['a', expect.any(String), 1]]);
    expect(planned(facts({ people: [person('Bo')], work: [work('a')] })).where).toEqual([['a', 'Bo', 1]]);
  });

  test('is done by two people of whom one has them', () => {
    for (const skilled of ['Ada', 'Bo']) {
      const people = ['Ada', 'Bo', 'Cy'].map((id) => person(id, { skills: id === skilled ? [{ skill: 'pumps', lastOn: null }] : [] }));
      const both = work('a', { tasks: [{ minutes: 60, crew: 2, skills: ['pumps'] }] });
      const { where } = planned(facts({ people, work: [both], days: 1 }));
      expect(where).toHaveLength(2);
      expect(where).toEqual(expect.arrayContaining([['a', 'Ada', 0], ...(skilled === 'Bo' ? [['a', 'Bo', 0]] : [])]));
    }
  });

  test('waits for everybody where no van holds all of it, or where they are said to be late', () => {
    const split = work('a', { partsInVans: [inVanOf('Ada', '2026-12-01'), inVanOf('Bo', '2026-12-01')] });
    expect(planned(facts({ work: [split] })).where).toMatchObject([['a', expect.any(String), 1]]);
    const since = { absences: [], longWork: [], lateParts: [{ id: 'a', from: '2026-12-01' }], urgentIds: [] };
    expect(planned(withChanges(facts({ work: [work('a')] }), since)).where).toMatchObject([['a', expect.any(String), 1]]);
  });

  test('is left out for the hand-over where nothing else stands in the way', () => {
    const skilled = [person('Ada'), person('Bo', { skills: [{ skill: 'pumps', lastOn: null }] })];
    const ofBo = work('a', { tasks: [{ minutes: 60, crew: 1, skills: ['pumps'] }] });
    expect(planned(facts({ people: skilled, work: [ofBo], days: 1 })).reasons).toEqual(['handover']);
    expect(planned(facts({ people: skilled, work: [ofBo] })).reasons).toEqual([]);
    expect(planned(facts({ people: [person('Ada')], work: [ofBo], days: 1 })).reasons).toEqual(['nobody has the skill']);
    expect(planned(facts({ people: [person('Bo')], work: [work('a')], days: 1 })).reasons).toEqual(['no parts']);
  });

  test('is never with somebody who has them not, however much there is to do', () => {
    const vans = fc.array(fc.constantFrom('Ada', 'Bo', 'Cy', null), { minLength: 4, maxLength: 9 });
    fc.assert(
      fc.property(vans, fc.boolean(), (holders, alone) => {
        const items = holders.map((id, at) => work(`${at}`, id === null ? { partsFromOn: null, partsInVans: [] } : { partsInVans: [inVanOf(id)] }));
        const { where } = planned(facts({ people: ['Ada', 'Bo', 'Cy'].map((id) => person(id)), sites: [site(alone)], work: items }), 64);
        for (const [at, holder] of holders.entries()) {
          const goers = where.filter(([id, , day]) => id === `${at}` && day === 0).map(([, name]) => name);
          if (goers.length > 0 && holder !== null) expect(goers).toContain(holder);
        }
      }),
      { numRuns: 15 },
    );
  });
});

test('the check of a plan sees by itself that nobody of the crew has the parts', () => {
  const { input, plan } = planned(facts({ work: [work('a'), work('b', { tasks: [{ minutes: 60, crew: 2, skills: [] }] })], days: 1 }));
  expect(plan.tours).toHaveLength(2);
  const found = (partsSooner: ReadonlyMap<number, number> | undefined) =>
    checkPlan({ ...input, work: input.work.map((item) => ({ ...item, partsSooner })) }, plan).map(({ text, work: at }) => [at, text]);
  expect(found(new Map([[0, 0]]))).toEqual([]);
  expect(found(new Map([[1, 0]]))).toEqual([[0, 'has no parts on that day']]);
  expect(found(undefined)).toEqual([
    [0, 'has no parts on that day'],
    [1, 'has no parts on that day'],
  ]);
});
