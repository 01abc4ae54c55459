import type { PersonToPlan, PlanInput, Shift, Span, WorkToPlan } from './plan-input.js';
import type { RoutingProblem } from './routing-problem.js';

/** A problem of the search, and what its numbers stand for. */
export interface BuiltProblem {
  readonly problem: RoutingProblem;
  /** Person and day of each slot */
  readonly slots: readonly { readonly person: number; readonly day: number; readonly shift: Shift }[];
  /** The work of each visit; work of two people has two visits */
  readonly workOf: readonly number[];
  readonly visitsOf: readonly (readonly number[])[];
}

interface Option {
  readonly slot: number;
  readonly span: Span;
  readonly cost: number;
}

/** A way of this length to every home may be worth a night away. */
const FAR_MINUTES = 120;

/** Slots are the days that people work, visits the work; options say who may do what when. */
export function buildProblem(input: PlanInput): BuiltProblem {
  const { people, sites, work, travel, prices } = input;
  const slots = people.flatMap(({ shifts }, person) => shifts.flatMap((shift, day) => (shift === null || day >= input.days ? [] : [{ person, day, shift }])));
  const workOf = work.flatMap(({ people: crew }, at) => (crew === 2 ? [at, at] : [at]));
  const visitsOf: number[][] = work.map(() => []);
  for (const [visit, at] of workOf.entries()) visitsOf[at]?.push(visit);
  const options = workOf.map((at, visit) => {
    const item = work[at] as WorkToPlan;
    return optionsOf(input, item, slots, visitsOf[at]?.[0] === visit);
  });
  const offset = new Int32Array(workOf.length + 1);
  for (const [visit, list] of options.entries()) offset[visit + 1] = (offset[visit] as number) + list.length;
  const all = options.flat();
  const places = people.length + sites.length;
  const perSlot = (pick: (slot: BuiltProblem['slots'][number]) => number) => Float64Array.from(slots, pick);
  const perVisit = (pick: (item: WorkToPlan) => number) => Float64Array.from(workOf, (at) => pick(work[at] as WorkToPlan));
  const slotAt = new Map(slots.map(({ person, day }, slot) => [person * input.days + day, slot]));
  const neighbour = (step: number) =>
    Int32Array.from(slots, ({ person, day }) => (day + step < 0 || day + step >= input.days ? -1 : (slotAt.get(person * input.days + day + step) ?? -1)));
  const far = Uint8Array.from(workOf, (at) => {
    const site = people.length + (work[at] as WorkToPlan).site;
    return people.every((_, home) => (travel.minutes[home * places + site] as number) > FAR_MINUTES) ? 1 : 0;
  });
  const problem: RoutingProblem = {
    visits: {
      count: workOf.length,
      node: Int32Array.from(workOf, (at) => people.length + (work[at] as WorkToPlan).site),
      serviceMinutes: perVisit(({ minutes }) => minutes),
      unassignedCost: perVisit(({ unassignedCost }) => unassignedCost),
      locked: Uint8Array.from(workOf, (at) => ((work[at] as WorkToPlan).promised === null ? 0 : 1)),
      second: Int32Array.from(workOf, (at, visit) => (visitsOf[at]?.[0] === visit ? (visitsOf[at]?.[1] ?? -1) : -1)),
    },
    slots: {
      count: slots.length,
      startNode: Int32Array.from(slots, ({ person }) => person),
      endNode: Int32Array.from(slots, ({ person }) => person),
      from: perSlot(({ shift }) => shift.from),
      until: perSlot(({ shift }) => shift.until),
      regularUntil: perSlot(({ shift }) => shift.regularUntil),
      fixedCost: new Float64Array(slots.length),
      day: Int32Array.from(slots, ({ day }) => day),
      alike: new Int32Array(slots.length).fill(-1),
    },
    options: {
      offset,
      slot: Int32Array.from(all, ({ slot }) => slot),
      from: Float64Array.from(all, ({ span }) => span.from),
      until: Float64Array.from(all, ({ span }) => span.until),
      cost: Float64Array.from(all, ({ cost }) => cost),
    },
    travel: { nodes: places, minutes: travel.minutes, cost: travel.km.map((km) => km * prices.km) },
    minuteCost: prices.minute,
    overtimeMinuteCost: prices.overtimeMinute,
    carried: null,
    nights: far.includes(1)
      ? {
          before: neighbour(-1),
          after: neighbour(1),
          most: Int32Array.from(slots, ({ person }) => people[person]?.mostNights ?? 0),
          cost: perSlot(({ person }) => people[person]?.nightCost ?? 0),
          far,
        }
      : null,
  };
  return { problem, slots, workOf, visitsOf };
}

/** Who may do the work on which day and when it may begin, the cheapest days first. Of two people the first has the skills. */
function optionsOf(input: PlanInput, work: WorkToPlan, slots: BuiltProblem['slots'], isFirst: boolean): Option[] {
  const { people, sites, prices } = input;
  const options: Option[] = [];
  for (const [slot, { person, day, shift }] of slots.entries()) {
    const cost = work.dayCost[day] as number;
    if (!(cost < work.unassignedCost) || work.partsFrom === null || day < work.partsFrom) continue;
    if (isFirst && !isAble(people[person] as PersonToPlan, work.skills, day)) continue;
    const { promised, published } = work;
    if (promised !== null) {
      if (promised.day === day && promised.people[isFirst ? 0 : 1] === person)
        options.push({ slot, span: { from: promised.start, until: promised.start }, cost: 0 });
      continue;
    }
    const moved = published !== null && (published.day !== day || !published.people.includes(person)) ? prices.change : 0;
    for (const open of sites[work.site]?.open[day] ?? []) {
      const span = { from: Math.max(open.from, shift.from), until: Math.min(open.until, shift.until) - work.minutes };
      if (span.from <= span.until) options.push({ slot, span, cost: cost + moved });
    }
  }
  return options.sort((one, two) => one.cost - two.cost || one.slot - two.slot);
}

export function isAble({ skills }: PersonToPlan, needed: readonly string[], day: number): boolean {
  return needed.every((skill) => {
    const last = skills.get(skill);
    return last !== undefined && (last === null || day <= last);
  });
}
