import { describe, expect, test } from '@jest/globals';
import { syntheticFleet } from '../../../evaluate/fleet-of-visits/synthetic-fleet.js';
import { beginFrom } from './begin-from.js';
import { buildProblem } from './build-problem.js';
import { checkPlan } from './check-plan.js';
import { improve, SHORT_TOURS } from './improve.js';
import type { PlanInput, VisitPlan, WorkToPlan } from './plan-input.js';
import { readPlan } from './read-plan.js';
import { whyLeftOut } from './why-left-out.js';

const DAY = { from: 480, until: 1020 };
const work = (change: Partial<WorkToPlan> = {}): WorkToPlan => ({
  name: 'Work',
  site: 0,
  minutes: 60,
  skills: [],
  people: 1,
  dayCost: new Float64Array(5),
  unassignedCost: 1000,
  partsFrom: 0,
  promised: null,
  published: null,
  ...change,
});
const person = (name: string, days = 5, skills: readonly (readonly [string, number | null])[] = []) => ({
  name,
  shifts: Array.from({ length: days }, () => ({ ...DAY, regularUntil: DAY.until })),
  skills: new Map(skills),
  mostNights: 3,
  nightCost: 100,
});

/** People live at the origin, sites lie so many minutes away from them and from each other. */
function input(jobs: readonly WorkToPlan[], people = [person('One')], minutesAway: readonly number[] = [30]): PlanInput {
  const places = [...people.map(() => 0), ...minutesAway];
  const minutes = Float64Array.from(places.flatMap((one, at) => places.map((two, to) => (at === to ? 0 : Math.abs(one - two)))));
  return {
    days: 5,
    people,
    sites: minutesAway.map((_, at) => ({ name: `Site ${at}`, open: Array.from({ length: 5 }, () => [DAY]) })),
    work: jobs,
    travel: { minutes, km: minutes },
    prices: { minute: 1, travelMinute: 0, workMinute: 0, overtimeMinute: 0.5, km: 0, change: 40 },
  };
}

const placesOf = ({ tours }: VisitPlan) =>
  tours.flatMap(({ person: who, day, stops }) => stops.map(({ work: at, start }) => ({ work: at, person: who, day, start })));

function planned(of: PlanInput, steps = 300, before?: VisitPlan): VisitPlan {
  const built = buildProblem(of);
  const plan = readPlan(
    of,
    built,
    improve(built.problem, 1, (done) => done / steps, SHORT_TOURS, before && beginFrom(built, placesOf(before))),
  );
  expect(checkPlan(of, plan)).toEqual([]);
  return plan;
}

describe('a plan of visits', () => {
  test('does the work of one site in one go', () => {
    const { tours } = planned(input([work(), work(), work()]));
    expect(tours).toHaveLength(1);
    expect(tours[0]).toMatchObject({ leave: 480 + 0, stops: [{ start: 510 }, { start: 570 }, { start: 630 }], back: 720 });
  });

  test('goes on the day that costs least', () => {
    const dayCost = Float64Array.of(50, 30, 0, 30, 60);
    expect(planned(input([work({ dayCost })])).tours[0]?.day).toBe(2);
  });

  test('waits for the parts', () => {
    expect(planned(input([work({ partsFrom: 3, dayCost: Float64Array.of(0, 10, 20, 30, 40) })])).tours[0]?.day).toBe(3);
  });

  test('sends whoever has the skill, as long as the certificate runs', () => {
    const people = [person('No'), person('Yes', 5, [['pressure test', 1]])];
    const { tours } = planned(input([work({ skills: ['pressure test'], dayCost: Float64Array.of(9, 9, 0, 0, 0) })], people));
    expect(tours[0]).toMatchObject({ person: 1, day: 0 });
  });

  test('lets two people begin together', () => {
    const { tours } = planned(input([work({ people: 2 }), work({ minutes: 200 }), work({ minutes: 200 })], [person('One'), person('Two')]));
    const starts = tours.flatMap(({ person: who, day, stops }) => stops.filter(({ work: at }) => at === 0).map(({ start }) => ({ who, day, start })));
    expect(starts).toHaveLength(2);
    expect(new Set(starts.map(({ who }) => who)).size).toBe(2);
    expect(new Set(starts.map(({ day, start }) => `${day} ${start}`)).size).toBe(1);
  });

  test('stays near a far site overnight instead of driving there twice', () => {
    const { tours, leftOut } = planned(input([work({ minutes: 240 }), work({ minutes: 240 })], [person('One')], [250]));
    expect(leftOut).toEqual([]);
    expect(tours.at(0)?.endPlace).not.toBe(0);
    expect(tours.at(-1)?.endPlace).toBe(0);
    expect(tours.length).toBeLessThanOrEqual(3);
  });

  test('stays away over a day without work where driving home and back would cost more', () => {
    const only = (day: number) => Float64Array.from({ length: 5 }, (_, at) => (at === day ? 0 : Number.POSITIVE_INFINITY));
    const { tours } = planned(input([work({ dayCost: only(1) }), work({ dayCost: only(3) })], [person('One')], [230]));
    expect(tours.map(({ day, stops, startPlace, endPlace }) => [day, stops.length, startPlace, endPlace])).toEqual([
      [1, 1, 0, 1],
      [2, 0, 1, 1],
      [3, 1, 1, 0],
    ]);
  });

  test('sleeps away no more nights in a row than somebody accepts', () => {
    const people = [{ ...person('One'), mostNights: 0 }];
    expect(planned(input([work({ minutes: 240 })], people, [250])).leftOut).toEqual([0]);
  });

  test('keeps what was promised to the minute, whatever else comes', () => {
    const promised = { people: [0], day: 1, start: 600 };
    const { tours } = planned(
      input([work({ promised }), ...Array.from({ length: 8 }, () => work({ minutes: 120, dayCost: Float64Array.of(50, 0, 50, 50, 50) }))]),
    );
    const kept = tours.flatMap(({ day, stops }) => stops.filter(({ work: at }) => at === 0).map(({ start }) => ({ day, start })));
    expect(kept).toEqual([{ day: 1, start: 600 }]);
  });

  test('moves published work only where that is worth more than the change', () => {
    const before = planned(input([work({ dayCost: Float64Array.of(0, 5, 5, 5, 5) })]));
    const published = { people: [0], day: 0 };
    const little = input([work({ published, dayCost: Float64Array.of(30, 0, 0, 0, 0) })]);
    expect(planned(little, 300, before).tours[0]?.day).toBe(0);
    const much = input([work({ published, dayCost: Float64Array.of(90, 0, 90, 90, 90) })]);
    expect(planned(much, 300, before).tours[0]?.day).toBe(1);
  });

  test.each([
    ['no parts', work({ partsFrom: null })],
    ['nobody has the skill', work({ skills: ['diving'] })],
    ['not let in long enough', work({ minutes: 600 })],
    ['no second person', work({ people: 2 })],
    ['promise cannot be kept', work({ promised: { people: [0], day: 9, start: 600 } })],
  ] as const)('says why work is left out: %s', (reason, item) => {
    const of = input([item]);
    expect(planned(of).leftOut).toEqual([0]);
    expect(whyLeftOut(of, item, false)).toBe(reason);
  });

  test('of a drawn fleet breaks nothing, near or far', () => {
    const of = syntheticFleet({ visits: 60, technicians: 3, weeks: 2, seed: 5, remote: 0.2 });
    planned(of, 400);
  });
});

describe('the check of a plan', () => {
  const of = input(
    [work(), work({ people: 2 }), work({ skills: ['pumps'], promised: { people: [0], day: 0, start: 600 } })],
    [person('One', 5, [['pumps', null]]), person('Two')],
  );
  const good = planned(of);
  const changed = (change: (plan: VisitPlan) => VisitPlan) => checkPlan(of, change(good)).map(({ text }) => text);
  const eachTour = (change: (tour: VisitPlan['tours'][number]) => VisitPlan['tours'][number]) => (plan: VisitPlan) => ({
    ...plan,
    tours: plan.tours.map(change),
  });

  test.each([
    ['leaves before the shift begins', eachTour((tour) => ({ ...tour, leave: 400 }))],
    ['is back after the shift ends', eachTour((tour) => ({ ...tour, back: 1100 }))],
    ['is back sooner than the way takes', eachTour((tour) => ({ ...tour, back: tour.leave }))],
    ['begins before the arrival', eachTour((tour) => ({ ...tour, stops: tour.stops.map((stop) => ({ ...stop, start: tour.leave, end: tour.leave + 60 })) }))],
    ['is not begun together', eachTour((tour) => (tour.person === 0 ? tour : { ...tour, day: tour.day + 1 }))],
    ['breaks a promise', eachTour((tour) => ({ ...tour, day: tour.day + 1 }))],
    ['is neither in the plan nor left out', (plan: VisitPlan) => ({ ...plan, tours: [] })],
    ['is in the plan and left out', (plan: VisitPlan) => ({ ...plan, leftOut: [0] })],
    ['does not come home', eachTour((tour) => ({ ...tour, endPlace: 2 }))],
  ] as const)('sees a plan that %s', (fault, change) => {
    expect(changed(change)).toContain(fault);
  });
});
