import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { buildProblem } from '../build-problem.js';
import { checkPlan } from '../check-plan.js';
import { improve, SHORT_TOURS } from '../improve.js';
import type { BreakRule, PlanInput, VisitPlan, WorkToPlan } from '../plan-input.js';
import { readPlan } from '../read-plan.js';
import { mendPlan } from './mend-plan.js';

const DAYS = 4;
const DAY = { from: 480, until: 1020 };
const work = (change: Partial<WorkToPlan> = {}): WorkToPlan => ({
  name: 'Work',
  site: 0,
  minutes: 60,
  skills: [],
  people: 1,
  dayCost: new Float64Array(DAYS),
  unassignedCost: 5000,
  partsFrom: 0,
  promised: null,
  published: null,
  ...change,
});

/** Two people with their own skill, two sites. */
function input(
  jobs: readonly WorkToPlan[],
  { breakRule, nights = 0, away = 30 }: { breakRule?: BreakRule | undefined; nights?: number; away?: number } = {},
): PlanInput {
  const places = [0, 0, away, 20];
  const minutes = Float64Array.from(places.flatMap((one, at) => places.map((two, to) => (at === to ? 0 : Math.max(5, Math.abs(one - two))))));
  return {
    days: DAYS,
    people: ['pumps', 'controls'].map((skill, at) => ({
      name: `Person ${at}`,
      shifts: Array.from({ length: DAYS }, () => ({ ...DAY, regularUntil: DAY.until })),
      skills: new Map([[skill, null]]),
      mostNights: nights,
      nightCost: 60,
      breakRule: at === 0 ? breakRule : undefined,
    })),
    sites: [0, 1].map((at) => ({ name: `Site ${at}`, open: Array.from({ length: DAYS }, () => [DAY]) })),
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

const timesOf = ({ tours }: VisitPlan, at: number) =>
  tours.flatMap(({ person, day, stops }) => stops.filter((stop) => stop.work === at).map(({ start, end }) => ({ person, day, start, end })));

describe('a plan in order', () => {
  test('does work after the work before it, in one tour where that suits', () => {
    const of = input([work({ after: [1] }), work(), work()]);
    const plan = planned(of);
    expect(checkPlan(of, plan)).toEqual([]);
    expect(plan.tours).toHaveLength(1);
    expect(plan.leftOut).toEqual([]);
  });

  test('lets somebody else come when it is done, on that day or a later one', () => {
    const onDay = (best: number) => Float64Array.from({ length: DAYS }, (_, day) => 300 * Math.abs(day - best));
    const of = input([work({ skills: ['controls'], after: [1], dayCost: onDay(0) }), work({ skills: ['pumps'], minutes: 300, dayCost: onDay(0) })]);
    const plan = planned(of);
    expect(checkPlan(of, plan)).toEqual([]);
    const [[later], [first]] = [timesOf(plan, 0), timesOf(plan, 1)];
    expect([first?.day, later?.day]).toEqual([0, 0]);
    expect(later?.start).toBeGreaterThanOrEqual(first?.end ?? 0);
  });

  test('leaves out what would come without the work before it', () => {
    const of = input([work({ after: [1] }), work({ skills: ['diving'] })]);
    const plan = planned(of);
    expect(checkPlan(of, plan)).toEqual([]);
    expect(plan.leftOut).toEqual([0, 1]);
  });

  test('does the work before a promise in time for it', () => {
    const late = Float64Array.from({ length: DAYS }, (_, day) => (day === 3 ? 0 : 200));
    const of = input([work({ after: [1], promised: { people: [0], day: 1, start: 600 } }), work({ dayCost: late })]);
    const plan = planned(of);
    expect(checkPlan(of, plan)).toEqual([]);
    const [[promised], [before]] = [timesOf(plan, 0), timesOf(plan, 1)];
    expect(promised).toMatchObject({ day: 1, start: 600 });
    expect((before?.day ?? 9) * 1440 + (before?.end ?? 0)).toBeLessThanOrEqual(1440 + 600);
  });

  test('keeps every rule on drawn work, with breaks, nights and work of two', () => {
    const item = fc
      .record({
        site: fc.constantFrom(0, 1),
        minutes: fc.integer({ min: 10, max: 400 }),
        people: fc.constantFrom(1 as const, 1 as const, 2 as const),
        skill: fc.constantFrom([], ['pumps'], ['controls']),
        best: fc.integer({ min: 0, max: DAYS - 1 }),
        fixed: fc.constantFrom('free', 'free', 'free', 'promised'),
        start: fc.integer({ min: 540, max: 800 }),
        after: fc.array(fc.integer({ min: 0, max: 5 }), { maxLength: 1 }),
      })
      .map(({ site, minutes, people, skill, best, fixed, start, after }) => ({
        ...work({ site, minutes, people, skills: skill, dayCost: Float64Array.from({ length: DAYS }, (_, day) => 60 * Math.abs(day - best)) }),
        promised: fixed === 'promised' ? { people: people === 2 ? [0, 1] : [0], day: best, start } : null,
        after,
      }));
    const setting = fc.record({
      breakRule: fc.option(fc.constant({ minutes: 30, from: 690, until: 840 }), { nil: undefined }),
      nights: fc.constantFrom(0, 1),
      away: fc.constantFrom(30, 150),
    });
    fc.assert(
      fc.property(setting, fc.array(item, { minLength: 2, maxLength: 6 }), (about, drawn) => {
        const jobs = drawn.map(({ after, ...job }, at) => ({ ...job, after: after.filter((other) => other !== at && other < drawn.length) }));
        const of = input(jobs, about);
        expect(checkPlan(of, planned(of, 40))).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });
});

describe('the check of the order', () => {
  test('sees work before the work that it is to come after, or without it', () => {
    const of = input([work({ after: [1] }), work()]);
    const good = planned(of);
    const other = { ...of, work: [work(), work({ after: [0] })] };
    expect(checkPlan(other, good).map(({ text }) => text)).toEqual(['comes before the work that it is to come after']);
    const without = { ...good, leftOut: [1], tours: good.tours.map((tour) => ({ ...tour, stops: tour.stops.filter((stop) => stop.work === 0) })) };
    expect(checkPlan(of, without).map(({ text }) => text)).toContain('comes without the work before it');
  });
});
