import { isAble } from './build-problem.js';
import type { PersonToPlan, PlanInput, WorkToPlan } from './plan-input.js';

/** Why work is not in the plan: the first of these that holds. */
export type LeftOutReason =
  | 'no parts'
  | 'nobody has the skill'
  | 'nobody with the skill works in time'
  | 'not let in long enough'
  | 'no second person'
  | 'promise cannot be kept'
  | 'costs more than to wait'
  | 'no room';

/**
 * Says why work was left out, from the input alone, so that what to change is known: parts, a skill, a shift, access, a second person; else other work took the room.
 *
 * @param room whether there was any free place for it in the plan
 */
export function whyLeftOut(input: PlanInput, work: WorkToPlan, room: boolean): LeftOutReason {
  if (work.partsFrom === null || (work.promised !== null && work.promised.day < work.partsFrom)) return 'no parts';
  if (work.promised !== null) return 'promise cannot be kept';
  const { people, sites } = input;
  const able = people.filter((person) => isAbleAtAll(person, work, input.days));
  if (able.length === 0) return 'nobody has the skill';
  const days = Array.from({ length: input.days }, (_, day) => day).filter(
    (day) => Number.isFinite(work.dayCost[day] as number) && day >= (work.partsFrom ?? 0),
  );
  const working = days.filter((day) => able.some((person) => person.shifts[day] !== null && isAble(person, work.skills, day)));
  if (working.length === 0) return 'nobody with the skill works in time';
  const open = working.filter((day) => (sites[work.site]?.open[day] ?? []).some(({ from, until }) => until - from >= work.minutes));
  if (open.length === 0) return 'not let in long enough';
  if (work.people === 2 && !open.some((day) => people.filter(({ shifts }) => shifts[day] !== null).length > 1)) return 'no second person';
  return room ? 'costs more than to wait' : 'no room';
}

const isAbleAtAll = (person: PersonToPlan, { skills }: WorkToPlan, days: number): boolean =>
  Array.from({ length: days }, (_, day) => day).some((day) => isAble(person, skills, day));
