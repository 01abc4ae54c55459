import { toWorking } from '../planner/breaks/working-clock.js';
import { isAble } from '../planner/build-problem.js';
import type { PlanInput, VisitPlan, WorkToPlan } from '../planner/plan-input.js';
import { earlyAndLate, type WorkDates } from './day-costs.js';

const COST_KINDS = ['travel', 'kilometres', 'work', 'waiting', 'overtime', 'nights', 'late', 'early', 'changes', 'not on call', 'left out'] as const;

export interface KindOfCost {
  readonly kind: (typeof COST_KINDS)[number];
  /** What it counts as */
  readonly minutes: number;
  /** Ways, whole kilometres, pieces of work, pauses, tours, nights: as many as the kind has */
  readonly count: number;
}

/**
 * What a plan costs by kind, in minutes of work: the sum is what the search tells, and the wait for boats. Breaks cost nothing. `work` counts the minutes of each person; `late` and `early` what days count as beyond the cheapest
 * day of each piece of work; `changes` visits and earlier lines that were put elsewhere; `not on call` urgent work of others than those on call; `left out` what leaving work out counts as.
 *
 * @param dates by which the days of each piece of work were judged
 */
export function costByKind(input: PlanInput, dates: readonly WorkDates[], firstDay: string, { tours, leftOut }: VisitPlan): KindOfCost[] {
  const { people, work, travel, prices } = input;
  const places = people.length + input.sites.length;
  let km = 0;
  const sums = new Map(COST_KINDS.map((kind) => [kind, { minutes: 0, count: 0 }]));
  const add = (kind: KindOfCost['kind'], minutes: number, count = minutes > 0 ? 1 : 0) => {
    const sum = sums.get(kind);
    if (sum === undefined) return;
    sum.minutes += minutes;
    sum.count += count;
  };
  for (const { person, day, startPlace, endPlace, leave, back, pause, stops } of tours) {
    let place = startPlace;
    let [ways, working] = [0, 0];
    for (const { work: at, start } of stops) {
      const item = work[at];
      if (item === undefined) continue;
      const leg = place * places + people.length + item.site;
      const way = travel.minutes[leg] as number;
      km += travel.km[leg] as number;
      ways += way;
      const { minutes } = item;
      working += minutes;
      add('travel', way * (prices.minute + prices.travelMinute));
      add('work', minutes * (prices.minute + prices.workMinute));
      const { early, late } = beyondCheapest(item, dates[at], firstDay, day);
      add('early', early);
      add('late', late);
      if (isChanged(item, person, day, start)) add('changes', prices.change);
      if (isOfOnCall(input, item, day) && people[person]?.onCall?.[day] !== true) add('not on call', prices.notOnCall ?? 0);
      place = people.length + item.site;
    }
    const home = travel.minutes[place * places + endPlace] as number;
    km += travel.km[place * places + endPlace] as number;
    add('travel', home * (prices.minute + prices.travelMinute));
    const out = toWorking(pause, back) - toWorking(pause, leave);
    add('waiting', (out - ways - home - working) * prices.minute);
    const regular = people[person]?.shifts[day]?.regularUntil ?? back;
    add('overtime', Math.max(0, toWorking(pause, back) - toWorking(pause, regular)) * prices.overtimeMinute);
    if (endPlace !== person) add('nights', people[person]?.nightCost ?? 0, 1);
  }
  for (const at of leftOut) add('left out', work[at]?.unassignedCost ?? 0, 1);
  add('kilometres', km * prices.km, Math.round(km));
  return [...sums].map(([kind, sum]) => ({ kind, ...sum }));
}

/** The parts of the cost of a day: of both the cheapest day is taken off. */
function beyondCheapest({ dayCost }: WorkToPlan, dates: WorkDates | undefined, firstDay: string, day: number): { early: number; late: number } {
  if (dates === undefined || (dayCost[day] ?? 0) === 0) return { early: 0, late: 0 };
  const cheapest = dayCost.indexOf(0);
  const [here, there] = [earlyAndLate(dates, firstDay, day), earlyAndLate(dates, firstDay, cheapest)];
  return { early: here.early - there.early, late: here.late - there.late };
}

/** Urgent work that somebody on call could do on that day. */
const isOfOnCall = ({ people }: PlanInput, { urgent, promised, skills }: WorkToPlan, day: number): boolean =>
  urgent === true && promised === null && people.some((person) => person.onCall?.[day] === true && person.shifts[day] !== null && isAble(person, skills, day));

function isChanged({ published }: WorkToPlan, person: number, day: number, start: number): boolean {
  if (published === null) return false;
  return published.day !== day || !published.people.includes(person) || (published.start !== undefined && Math.abs(published.start - start) > 0.5);
}
