import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { syntheticFleet } from '../../../../evaluate/fleet-of-visits/synthetic-fleet.js';
import { beginFrom } from '../begin-from.js';
import { buildProblem } from '../build-problem.js';
import { checkPlan } from '../check-plan.js';
import { improve, SHORT_TOURS } from '../improve.js';
import type { BreakRule, PlanInput, VisitPlan, WorkToPlan } from '../plan-input.js';
import { readPlan } from '../read-plan.js';

const DAY = { from: 480, until: 1020 };
const RULE: BreakRule = { minutes: 30, from: 690, until: 840 };
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

/** People who live together, and one site so many minutes away. */
function input(jobs: readonly WorkToPlan[], rules: readonly (BreakRule | undefined)[] = [RULE], open = DAY): PlanInput {
  const places = [...rules.map(() => 0), 30];
  const minutes = Float64Array.from(places.flatMap((one) => places.map((two) => Math.abs(one - two))));
  return {
    days: 2,
    people: rules.map((breakRule, at) => ({
      name: `Person ${at}`,
      shifts: [{ ...DAY, regularUntil: DAY.until }, null],
      skills: new Map(),
      mostNights: 0,
      nightCost: 0,
      breakRule,
    })),
    sites: [{ name: 'Site', open: [[open], []] }],
    work: jobs,
    travel: { minutes, km: minutes },
    prices: { minute: 1, travelMinute: 0, workMinute: 0, overtimeMinute: 0.5, km: 0, change: 40 },
  };
}

function planned(of: PlanInput, steps = 200, before?: VisitPlan): VisitPlan {
  const built = buildProblem(of);
  const places = before?.tours.flatMap(({ person, day, stops }) => stops.map(({ work: at, start }) => ({ work: at, person, day, start })));
  return readPlan(
    of,
    built,
    improve(built.problem, 1, (done) => done / steps, SHORT_TOURS, places && beginFrom(built, places)),
  );
}

const promised = (start: number, people = [0]) => ({ people, day: 0, start });

describe('a plan with breaks', () => {
  test('gives the break between two pieces of work where one ends in time for it', () => {
    const { tours } = planned(input([work({ minutes: 200 }), work({ minutes: 200 })]));
    const [tour] = tours;
    expect(tour?.stops[0]?.end).toBe(tour?.pause?.from);
    expect(tour?.stops[1]?.start).toBe(tour?.pause?.until);
    expect(tour?.back).toBe((tour?.leave ?? 0) + 60 + 400 + 30);
  });

  test('interrupts long work, and is not paid as work', () => {
    const { tours, cost } = planned(input([work({ minutes: 420 })]));
    expect(tours[0]).toMatchObject({ pause: { from: 750, until: 780 }, stops: [{ start: 510, end: 960 }] });
    expect(cost).toBe(480);
  });

  test('asks for none where the tour is over before the time for it, or begins after it', () => {
    expect(planned(input([work({ minutes: 60 })])).tours[0]?.pause).toBeNull();
    expect(planned(input([work({ promised: promised(900) })])).tours[0]?.pause).toBeNull();
  });

  test('leaves out what fits into the shift only without the break', () => {
    expect(planned(input([work({ minutes: 480 })], [undefined])).leftOut).toEqual([]);
    expect(planned(input([work({ minutes: 480 })])).leftOut).toEqual([0]);
  });

  test('keeps the window of the site with the break inside of it', () => {
    expect(planned(input([work({ minutes: 240 })], [RULE], { from: 660, until: 900 })).leftOut).toEqual([0]);
    const [tour] = planned(input([work({ minutes: 240 })], [RULE], { from: 660, until: 930 })).tours;
    expect(tour?.stops[0]).toMatchObject({ start: 660, end: 930 });
  });

  test('lays the break round what was promised, to the minute', () => {
    const { tours } = planned(input([work({ promised: promised(740), minutes: 60 }), work({ minutes: 120 }), work({ minutes: 90 })]));
    expect(tours[0]?.stops.find(({ work: at }) => at === 0)?.start).toBe(740);
    expect(tours[0]?.pause).not.toBeNull();
  });

  test('keeps a promise that leaves no room for a break, and shows none', () => {
    const of = input([work({ promised: promised(510), minutes: 480 })]);
    const plan = planned(of);
    expect(plan.leftOut).toEqual([]);
    expect(plan.tours[0]?.pause).toBeNull();
    expect(checkPlan(of, plan)).toEqual([]);
  });

  test('lets two people have their break together, or neither of them within work of two', () => {
    const together = planned(input([work({ people: 2, minutes: 420 })], [RULE, RULE]));
    expect(together.tours.map(({ pause }) => pause)).toEqual([
      { from: 750, until: 780 },
      { from: 750, until: 780 },
    ]);
    const late = { minutes: 45, from: 780, until: 900 };
    const apart = planned(input([work({ people: 2, minutes: 180 })], [RULE, late]));
    expect(apart.leftOut).toEqual([]);
    for (const { stops } of apart.tours) expect((stops[0]?.end ?? 0) - (stops[0]?.start ?? 0)).toBe(180);
    expect(planned(input([work({ people: 2, minutes: 420 })], [RULE, late])).leftOut).toEqual([0]);
  });

  test('keeps every rule on drawn days, with work of two, promises and times that were published', () => {
    const rule = fc.option(
      fc
        .record({ minutes: fc.constantFrom(15, 30, 45, 60), from: fc.integer({ min: 600, max: 740 }), width: fc.integer({ min: 60, max: 180 }) })
        .map(({ minutes, from, width }) => ({ minutes, from, until: from + width })),
      { nil: undefined },
    );
    const item = fc
      .record({
        minutes: fc.integer({ min: 10, max: 300 }),
        people: fc.constantFrom(1 as const, 1 as const, 2 as const),
        start: fc.integer({ min: 510, max: 800 }),
        fixed: fc.constantFrom('free', 'free', 'promised', 'published'),
      })
      .map(({ minutes, people, start, fixed }) =>
        work({
          minutes,
          people,
          promised: fixed === 'promised' ? promised(start, people === 2 ? [0, 1] : [0]) : null,
          published: fixed === 'published' ? promised(start, people === 2 ? [0, 1] : [1]) : null,
        }),
      );
    fc.assert(
      fc.property(fc.tuple(rule, rule), fc.array(item, { minLength: 1, maxLength: 6 }), fc.integer({ min: 540, max: 720 }), (rules, jobs, opens) => {
        const of = input(jobs, rules, { from: opens, until: opens + 240 });
        const plan = planned(of, 60);
        expect(checkPlan(of, plan)).toEqual([]);
        const free = { ...of, people: of.people.map((one) => ({ ...one, breakRule: undefined })) };
        const before = planned(free, 60);
        const isPromised = (at: number) => jobs[at]?.promised !== null;
        if (!before.leftOut.some(isPromised)) expect(plan.leftOut.some(isPromised)).toBe(false);
        expect(checkPlan(of, planned(of, 2, before))).toEqual([]);
      }),
      { numRuns: 100 },
    );
  });

  test('breaks nothing in a drawn fleet with nights away', () => {
    const fleet = syntheticFleet({ visits: 60, technicians: 3, weeks: 2, seed: 5, remote: 0.2 });
    const of = { ...fleet, people: fleet.people.map((person) => ({ ...person, breakRule: RULE })) };
    const plan = planned(of, 400);
    expect(checkPlan(of, plan)).toEqual([]);
    expect(plan.tours.some(({ pause }) => pause !== null)).toBe(true);
  });
});

describe('the check of breaks', () => {
  const of = input([work({ minutes: 200 }), work({ minutes: 200 })]);
  const good = planned(of);
  const faults = (change: (tour: VisitPlan['tours'][number]) => VisitPlan['tours'][number]) =>
    checkPlan(of, { ...good, tours: good.tours.map(change) }).map(({ text }) => text);

  test.each([
    ['has no break', (tour) => ({ ...tour, pause: null })],
    ['has a break of another length', (tour) => ({ ...tour, pause: { from: 720, until: 725 } })],
    ['has its break at another time of the day', (tour) => ({ ...tour, pause: { from: 600, until: 630 } })],
    ['does not take the time of the work', (tour) => ({ ...tour, pause: { from: 740, until: 770 } })],
  ] as [string, (tour: VisitPlan['tours'][number]) => VisitPlan['tours'][number]][])('sees a tour that %s', (fault, change) => {
    expect(faults(change)).toContain(fault);
  });

  test('sees a break that nobody asked for', () => {
    const free = input([work({ minutes: 200 }), work({ minutes: 200 })], [undefined]);
    expect(checkPlan(free, good).map(({ text }) => text)).toContain('has a break that nobody asked for');
  });
});
