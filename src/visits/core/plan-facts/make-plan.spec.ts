import { describe, expect, test } from '@jest/globals';
import { syntheticFleet } from '../../../evaluate/fleet-of-visits/synthetic-fleet.js';
import { isAble } from '../planner/build-problem.js';
import type { PlanInput, VisitPlan, WorkToPlan } from '../planner/plan-input.js';
import { SeededRandom } from '../planner/seeded-random.js';
import { makePlan } from './make-plan.js';

const CASES = 200;
const STEPS = 128;
const upTo = (steps: number) => (done: number) => done / steps;

/** Days from home to home, with where each piece of work is. */
const placesOf = ({ tours }: VisitPlan) =>
  tours
    .filter(({ person, startPlace, endPlace }) => startPlace === person && endPlace === person)
    .flatMap(({ person, day, stops }) => stops.map(({ work, start }) => ({ work, person, day, start })));

/** A plan of a drawn week, of which a third is promised; then somebody is away for a day, something breaks down and something takes twice as long. */
function drawnReplan(seed: number) {
  const random = new SeededRandom(seed);
  const before = syntheticFleet({ visits: 36, technicians: 3, weeks: 1, seed, remote: 0 });
  const first = makePlan(before, seed, upTo(STEPS)).plan;
  const places = placesOf(first);
  const away = { person: random.below(3), day: random.below(5) };
  const urgent: WorkToPlan = {
    ...(before.work[random.below(36)] as WorkToPlan),
    people: 1,
    unassignedCost: 20_000,
    dayCost: Float64Array.from({ length: 7 }, (_, day) => (day < 2 ? 0 : Number.POSITIVE_INFINITY)),
    partsFrom: 0,
  };
  const work = before.work.map((item, at): WorkToPlan => {
    const there = places.filter((place) => place.work === at);
    const [one] = there;
    if (one === undefined || there.length !== item.people) return item;
    const people = there.map(({ person }) => person);
    if (random.next() < 0.33) return { ...item, skills: [], promised: { people, day: one.day, start: one.start } };
    return { ...item, published: { people, day: one.day }, minutes: random.next() < 0.05 ? item.minutes * 2 : item.minutes };
  });
  const people = before.people.map((person, at) => ({
    ...person,
    shifts: person.shifts.map((shift, day) => (at === away.person && day === away.day ? null : shift)),
  }));
  const input: PlanInput = { ...before, people, work: [...work, urgent] };
  // Every other case has no time to search.
  return { input, away, found: makePlan(input, seed, seed % 2 === 0 ? () => 1 : upTo(STEPS), places), places };
}

/** Whether work fits between what was promised on some day, from home to home. */
function fitsBesidePromises({ people, sites, work, travel }: PlanInput, item: WorkToPlan): boolean {
  const places = people.length + sites.length;
  const way = (from: number, to: number) => travel.minutes[from * places + to] as number;
  return people.some((person, home) =>
    person.shifts.some((shift, day) => {
      if (shift === null || !isAble(person, item.skills, day) || !Number.isFinite(item.dayCost[day] as number)) return false;
      const fixed = work
        .filter(({ promised }) => promised?.day === day && promised.people.includes(home))
        .map(({ site, minutes, promised }) => ({ place: people.length + site, start: promised?.start ?? 0, end: (promised?.start ?? 0) + minutes }))
        .sort((one, two) => one.start - two.start);
      const stops = [{ place: home, start: shift.from, end: shift.from }, ...fixed, { place: home, start: shift.until, end: shift.until }];
      return stops.slice(1).some((next, at) => {
        const last = stops[at];
        if (last === undefined) return false;
        const arrival = last.end + way(last.place, people.length + item.site);
        return (sites[item.site]?.open[day] ?? []).some(({ from, until }) => {
          const end = Math.max(arrival, from) + item.minutes;
          return end <= until && end + way(people.length + item.site, next.place) <= next.start;
        });
      });
    }),
  );
}

describe('planning anew after what has become known since', () => {
  const cases = Array.from({ length: CASES }, (_, at) => drawnReplan(at + 1));

  test('moves no promise: it is where it was, or it is told because somebody is away', () => {
    let [kept, told] = [0, 0];
    for (const { input, away, found } of cases) {
      expect(found.faults).toEqual([]);
      for (const [at, { promised }] of input.work.entries()) {
        if (promised === null) continue;
        const there = found.plan.tours.flatMap(({ person, day, stops }) =>
          stops.filter(({ work }) => work === at).map(({ start }) => ({ person, day, start })),
        );
        if (there.length > 0) {
          kept += 1;
          expect(new Set(there.map(({ person }) => person))).toEqual(new Set(promised.people));
          for (const { day, start } of there) expect([day, start]).toEqual([promised.day, promised.start]);
        } else {
          told += 1;
          expect(found.plan.leftOut).toContain(at);
          expect(found.reasons[found.plan.leftOut.indexOf(at)]).toBe('promise cannot be kept');
          expect(promised.day === away.day && promised.people.includes(away.person)).toBe(true);
        }
      }
    }
    expect(kept).toBeGreaterThan(CASES);
    expect(told).toBeGreaterThan(0);
  });

  test('leaves urgent work out only where it has no place beside the promises', () => {
    const urgentIn = cases.map(({ input, found }) => {
      const at = input.work.length - 1;
      const isIn = !found.plan.leftOut.includes(at);
      if (!isIn) expect(fitsBesidePromises(input, input.work[at] as WorkToPlan)).toBe(false);
      return isIn;
    });
    expect(urgentIn.filter(Boolean).length).toBeGreaterThan(CASES / 2);
  });

  test('leaves most of the rest where it was', () => {
    const [same, all] = cases.reduce(
      ([stays, placed], { found, places }) => {
        const after = new Set(placesOf(found.plan).map(({ work, person, day }) => `${work} ${person} ${day}`));
        return [stays + places.filter(({ work, person, day }) => after.has(`${work} ${person} ${day}`)).length, placed + places.length];
      },
      [0, 0],
    );
    expect(same / all).toBeGreaterThan(0.75);
  });
});
