import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { buildProblem } from '../build-problem.js';
import { checkPlan } from '../check-plan.js';
import { improve, SHORT_TOURS } from '../improve.js';
import { mendPlan } from '../mend/mend-plan.js';
import type { BreakRule, Ferry, PlanInput, VisitPlan, WorkToPlan } from '../plan-input.js';
import { readPlan } from '../read-plan.js';
import { whyLeftOut } from '../why-left-out.js';

const DAY = { from: 420, until: 1080 };
const BOATS: Ferry = { landings: [510, 780], departures: [660, 960] };
const work = (change: Partial<WorkToPlan> = {}): WorkToPlan => ({
  name: 'Work',
  site: 0,
  minutes: 60,
  skills: [],
  people: 1,
  dayCost: new Float64Array(2),
  unassignedCost: 5000,
  partsFrom: 0,
  promised: null,
  published: null,
  ...change,
});

interface Setting {
  readonly ferry?: Ferry;
  readonly breakRule?: BreakRule | undefined;
  readonly people?: number;
  readonly nights?: number;
  readonly minutesAway?: number;
}

/** The first site is reached by boat, the second one by road. */
function input(jobs: readonly WorkToPlan[], { ferry = BOATS, breakRule, people = 1, nights = 0, minutesAway = 60 }: Setting = {}): PlanInput {
  const places = [...Array.from({ length: people }, () => 0), minutesAway, 20];
  const minutes = Float64Array.from(places.flatMap((one, at) => places.map((two, to) => (at === to ? 0 : Math.abs(one - two)))));
  const open = { from: Math.min(...ferry.landings), until: Math.max(...ferry.departures) };
  return {
    days: 2,
    people: Array.from({ length: people }, (_, at) => ({
      name: `Person ${at}`,
      shifts: [0, 1].map(() => ({ ...DAY, regularUntil: DAY.until })),
      skills: new Map(),
      mostNights: nights,
      nightCost: 60,
      breakRule,
    })),
    sites: [
      { name: 'Island', open: [[open], [open]], ferry },
      { name: 'Road', open: [[DAY], [DAY]] },
    ],
    work: jobs,
    travel: { minutes, km: minutes },
    prices: { minute: 1, travelMinute: 0, workMinute: 0, overtimeMinute: 0.5, km: 0, change: 40 },
  };
}

function planned(of: PlanInput, steps = 200): VisitPlan {
  const built = buildProblem(of);
  const found = improve(built.problem, 1, (done) => done / steps, SHORT_TOURS);
  return readPlan(of, built, mendPlan(built, of, found, 1));
}

describe('a plan with a ferry', () => {
  test('lands with a boat and leaves with one, and leaves home in time for it', () => {
    const of = input([work({ minutes: 90 })]);
    const plan = planned(of);
    expect(checkPlan(of, plan)).toEqual([]);
    expect(plan.tours).toMatchObject([{ leave: 450, stops: [{ arrive: 510, start: 510, end: 600 }], back: 720 }]);
  });

  test('does what there is at one site between the same boats', () => {
    const of = input([work(), work()]);
    const plan = planned(of);
    expect(checkPlan(of, plan)).toEqual([]);
    expect(plan.tours.map(({ stops }) => stops.map(({ start }) => start))).toEqual([[510, 570]]);
  });

  test('leaves for elsewhere when the boat goes, and not before', () => {
    const only = Float64Array.of(0, Number.POSITIVE_INFINITY);
    const of = input([work({ dayCost: only }), work({ site: 1, minutes: 400, dayCost: only })], { minutesAway: 30 });
    const plan = planned(of);
    expect(checkPlan(of, plan)).toEqual([]);
    // After the first boat back there is no time for the other work, nor before the last one.
    expect(plan.leftOut).toHaveLength(1);
  });

  test('says that it is the boats where work fits the day but for them', () => {
    const item = work({ minutes: 250 });
    const of = input([item], { ferry: { landings: [510], departures: [660, 1040] } });
    expect(planned(of).leftOut).toEqual([0]);
    expect(whyLeftOut(of, item, false)).toBe('ferry');
  });

  test('takes a promise as it was given', () => {
    const of = input([work({ promised: { people: [0], day: 0, start: 600 } })]);
    const plan = planned(of);
    expect(checkPlan(of, plan)).toEqual([]);
    expect(plan.tours[0]?.stops[0]?.start).toBe(600);
  });

  test('keeps every rule on drawn days, with breaks, nights, work of two and promises', () => {
    const times = fc.uniqueArray(fc.integer({ min: 450, max: 1000 }), { minLength: 1, maxLength: 3 });
    const setting = fc.record({
      ferry: fc.record({ landings: times, departures: times }),
      breakRule: fc.option(fc.constant({ minutes: 30, from: 690, until: 840 }), { nil: undefined }),
      people: fc.constantFrom(1, 2),
      nights: fc.constantFrom(0, 1),
      minutesAway: fc.constantFrom(30, 90, 200),
    });
    const item = fc
      .record({
        site: fc.constantFrom(0, 0, 1),
        minutes: fc.integer({ min: 10, max: 240 }),
        crew: fc.constantFrom(1 as const, 1 as const, 2 as const),
        start: fc.integer({ min: 510, max: 800 }),
        fixed: fc.constantFrom('free', 'free', 'free', 'promised'),
      })
      .map(({ site, minutes, crew, start, fixed }) =>
        work({ site, minutes, people: crew, promised: fixed === 'promised' ? { people: crew === 2 ? [0, 1] : [0], day: 0, start } : null }),
      );
    fc.assert(
      fc.property(setting, fc.array(item, { minLength: 1, maxLength: 5 }), (about, jobs) => {
        const of = input(jobs, about);
        expect(checkPlan(of, planned(of, 40))).toEqual([]);
      }),
      { numRuns: 80 },
    );
  });
});

describe('the check of ferries', () => {
  const of = input([work({ minutes: 90 })]);
  const good = planned(of);
  const faults = (change: (tour: VisitPlan['tours'][number]) => VisitPlan['tours'][number]) =>
    checkPlan(of, { ...good, tours: good.tours.map(change) }).map(({ text }) => text);

  test('sees who is there without a boat, or back without one', () => {
    expect(faults((tour) => ({ ...tour, stops: tour.stops.map((stop) => ({ ...stop, start: 530, end: 620 })), leave: 470 }))).toContain(
      'finds no boat there in time',
    );
    expect(faults((tour) => ({ ...tour, back: 661 }))).toContain('finds no boat back in time');
  });
});
