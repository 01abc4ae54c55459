import { max } from 'd3-array';
import { isWithin, timedWorkOf, usualBreak } from './breaks/usual-break.js';
import { toWorking } from './breaks/working-clock.js';
import type { PersonToPlan, PlanInput, Shift, Span, WorkToPlan } from './plan-input.js';
import type { Numbers, RoutingProblem } from './routing-problem.js';
import { firstWithParts, hasParts } from './who-has-parts.js';

/** A problem of the search, and what its numbers stand for. */
export interface BuiltProblem {
  readonly problem: RoutingProblem;
  /** Person and day of each slot; its times in the problem are without the break */
  readonly slots: readonly SlotOfPlan[];
  /** The work of each visit; work of two people has two visits */
  readonly workOf: readonly number[];
  readonly visitsOf: readonly (readonly number[])[];
}

interface SlotOfPlan {
  readonly person: number;
  readonly day: number;
  readonly shift: Shift;
  readonly pause: Span | null;
}

/** A way of this length to every home may be worth a night away. */
export const FAR_MINUTES = 120;

/** Slots are the days that people work, visits the work; options say who may do what when. */
export function buildProblem(input: PlanInput): BuiltProblem {
  const { people, sites, work, travel, prices } = input;
  const timedOn = timedWorkOf(input);
  const slots = people.flatMap(({ shifts, breakRule }, person) =>
    shifts.flatMap((shift, day): SlotOfPlan[] => {
      if (shift === null || day >= input.days) return [];
      return [{ person, day, shift, pause: breakRule === undefined ? null : usualBreak(breakRule, shift, timedOn(person, day)) }];
    }),
  );
  const workOf = work.flatMap(({ people: crew }, at) => (crew === 2 ? [at, at] : [at]));
  const visitsOf: number[][] = work.map(() => []);
  for (const [visit, at] of workOf.entries()) visitsOf[at]?.push(visit);
  const slotAt = new Int32Array(people.length * input.days).fill(-1);
  for (const [slot, { person, day }] of slots.entries()) slotAt[person * input.days + day] = slot;
  const windows = max(sites, ({ open }) => max(open, ({ length }) => length)) ?? 1;
  // A day as it was published is there twice, once for each of two people. What is not needed takes no memory before it is written.
  const options = new OptionColumns(workOf.length * (slots.length + 2) * windows, slots.length);
  const goers = goersBySkills(input, slotAt);
  const offset = new Int32Array(workOf.length + 1);
  for (const [visit, at] of workOf.entries()) {
    addOptions(options, input, work[at] as WorkToPlan, slots, slotAt, goers, visitsOf[at]?.[0] === visit);
    offset[visit + 1] = options.length;
  }
  const places = people.length + sites.length;
  const perSlot = (pick: (slot: BuiltProblem['slots'][number]) => number) => Float64Array.from(slots, pick);
  const perVisit = (pick: (item: WorkToPlan) => number) => Float64Array.from(workOf, (at) => pick(work[at] as WorkToPlan));
  const neighbour = (step: number) =>
    Int32Array.from(slots, ({ person, day }) =>
      day + step < 0 || day + step >= input.days || isOnCall(people[person], day) || isOnCall(people[person], day + step)
        ? -1
        : (slotAt[person * input.days + day + step] as number),
    );
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
      from: perSlot(({ shift, pause }) => toWorking(pause, shift.from)),
      until: perSlot(({ shift, pause }) => toWorking(pause, shift.until)),
      regularUntil: perSlot(({ shift, pause }) => toWorking(pause, shift.regularUntil)),
      fixedCost: new Float64Array(slots.length),
      day: Int32Array.from(slots, ({ day }) => day),
      alike: new Int32Array(slots.length).fill(-1),
      pauses: slots.map(({ pause }) => pause),
    },
    options: { offset, ...options.columns() },
    travel: {
      nodes: places,
      minutes: travel.minutes,
      // Millions of them: none are written where they would all be nothing.
      cost:
        prices.km === 0 && prices.travelMinute === 0
          ? null
          : travel.km.map((km, way) => km * prices.km + (travel.minutes[way] as number) * prices.travelMinute),
    },
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

/**
 * Options in columns: there are hundreds of each work, millions in all, and the first touch of so much memory takes longer than all that is reckoned. So numbers are kept as short as
 * they are the same: times in whole minutes, and most costs.
 */
class OptionColumns {
  length = 0;
  private readonly slot: Int32Array | Uint16Array;
  private from: Numbers;
  private until: Numbers;
  private cost: Numbers;

  constructor(room: number, slots: number) {
    this.slot = slots > 0xffff ? new Int32Array(room) : new Uint16Array(room);
    this.from = new Float32Array(room);
    this.until = new Float32Array(room);
    this.cost = new Float32Array(room);
  }

  add(slot: number, from: number, until: number, cost: number): void {
    const at = this.length;
    this.slot[at] = slot;
    this.from[at] = from;
    this.until[at] = until;
    this.cost[at] = cost;
    this.length += 1;
    if (this.from[at] !== from) this.from = longer(this.from, at, from);
    if (this.until[at] !== until) this.until = longer(this.until, at, until);
    if (this.cost[at] !== cost) this.cost = longer(this.cost, at, cost);
  }

  columns(): Omit<RoutingProblem['options'], 'offset'> {
    const { slot, from, until, cost, length } = this;
    return { slot: slot.subarray(0, length), from: from.subarray(0, length), until: until.subarray(0, length), cost: cost.subarray(0, length) };
  }
}

/** A column of longer numbers, for one that would not be the same in it. */
function longer(column: Numbers, at: number, value: number): Float64Array {
  const copy = new Float64Array(column.length);
  copy.set(column.subarray(0, at));
  copy[at] = value;
  return copy;
}

/** Who may do the work on which day and when it may begin, the cheapest days first. Of two people the first has the skills. */
function addOptions(
  options: OptionColumns,
  input: PlanInput,
  work: WorkToPlan,
  slots: BuiltProblem['slots'],
  slotAt: Int32Array,
  goers: Goers,
  isFirst: boolean,
): void {
  const { people, sites, prices, days } = input;
  const { promised, published, partsSooner, dayCost, unassignedCost, skills, minutes, entry = [] } = work;
  const partsFrom = firstWithParts(work);
  if (partsFrom === null) return;
  // Wherever it is put, the minutes of the work cost the same.
  const ofWork = prices.workMinute * minutes;
  if (promised !== null) {
    const person = promised.people[isFirst ? 0 : 1];
    const slot = person === undefined ? undefined : slotAt[person * days + promised.day];
    const able = !isFirst || (person !== undefined && isAble(people[person] as PersonToPlan, skills, promised.day));
    const start = toWorking(slots[slot ?? -1]?.pause ?? null, promised.start);
    if (slot !== undefined && slot >= 0 && able && promised.day >= partsFrom) options.add(slot, start, start, ofWork);
    return;
  }
  const able = goers(isFirst ? [...skills, ...entry] : entry);
  const daysByCost = Array.from({ length: days - partsFrom }, (_, at) => partsFrom + at)
    .filter((day) => (dayCost[day] as number) < unassignedCost && sites[work.site]?.open[day]?.length !== 0 && isNoticed(work, day))
    .sort((one, two) => (dayCost[one] as number) - (dayCost[two] as number) || one - two);
  // Of two people the first brings the parts where one who can be the first has them, else the second.
  const brings = (day: number) => work.people === 1 || isFirst === (goers([...skills, ...entry])[day] ?? []).some((person) => hasParts(work, person, day));
  const goOn = (day: number) => {
    const all = able[day] ?? [];
    return partsSooner === undefined || !brings(day) ? all : all.filter((person) => hasParts(work, person, day));
  };
  const add = (day: number, person: number, cost: number, start: number | null) => {
    const slot = slotAt[person * days + day] as number;
    const { shift, pause } = slots[slot] as SlotOfPlan;
    for (const open of sites[work.site]?.open[day] ?? []) {
      const from = toWorking(pause, Math.max(open.from, shift.from));
      const until = toWorking(pause, Math.min(open.until, shift.until)) - minutes;
      if (start === null) {
        if (from <= until) options.add(slot, from, until, cost + ofWork);
        continue;
      }
      const then = toWorking(pause, start);
      if (from <= then && then <= until && !isWithin(pause, start)) options.add(slot, then, then, cost + ofWork);
    }
  };
  // Those on call come first for what is urgent, wherever one of them can do it.
  const others = prices.notOnCall ?? 0;
  const first = new Set(work.urgent === true && others > 0 ? daysByCost.filter((day) => goOn(day).some((at) => isOnCall(people[at], day))) : []);
  const ofOthers = (day: number, person: number) => (first.has(day) && !isOnCall(people[person], day) ? others : 0);
  if (published === null && first.size === 0) {
    for (const day of daysByCost) for (const person of goOn(day)) add(day, person, dayCost[day] as number, null);
    return;
  }
  // As it was published costs nothing; anything else costs the change, so that days come by their cost with and without it.
  const entries = daysByCost.flatMap((day) =>
    goOn(day).flatMap((person) => {
      const cost = (dayCost[day] as number) + ofOthers(day, person);
      const same = published === null || (published.day === day && published.people.includes(person));
      const start = published?.start;
      const free = { day, person, cost: same && start === undefined ? cost : cost + prices.change, start: null };
      return same && start !== undefined ? [{ day, person, cost, start }, free] : [free];
    }),
  );
  entries.sort((one, two) => one.cost - two.cost || one.day - two.day || one.person - two.person);
  for (const { day, person, cost, start } of entries) add(day, person, cost, start);
}

/** There is time to give notice, or the site knows of the visit already. */
export const isNoticed = ({ urgent, noticeFrom = 0, published }: WorkToPlan, day: number): boolean =>
  urgent === true || day >= noticeFrom || (published?.start !== undefined && published.day === day);

const isOnCall = (person: PersonToPlan | undefined, day: number): boolean => person?.onCall?.[day] === true;

export function isAble({ skills }: PersonToPlan, needed: readonly string[], day: number): boolean {
  return needed.every((skill) => {
    const last = skills.get(skill);
    return last !== undefined && (last === null || day <= last);
  });
}

/** Who has these skills and works, of each day. */
type Goers = (skills: readonly string[]) => readonly (readonly number[])[];

/** Much work asks for the same skills: who has them is found once. */
function goersBySkills({ people, days }: PlanInput, slotAt: Int32Array): Goers {
  const found = new Map<string, readonly (readonly number[])[]>();
  const onDay = (day: number, skills: readonly string[]) =>
    people.flatMap((person, at) => ((slotAt[at * days + day] as number) >= 0 && isAble(person, skills, day) ? [at] : []));
  return (skills) => {
    const key = JSON.stringify(skills);
    const known = found.get(key) ?? Array.from({ length: days }, (_, day) => onDay(day, skills));
    found.set(key, known);
    return known;
  };
}
