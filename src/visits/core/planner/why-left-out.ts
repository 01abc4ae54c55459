import { usualBreak } from './breaks/usual-break.js';
import { endByClock, toWorking } from './breaks/working-clock.js';
import { FAR_MINUTES, isAble, isNoticed } from './build-problem.js';
import { ferryAtWork, nextBoat } from './ferries/ferry-times.js';
import type { Ferry, PersonToPlan, PlanInput, Shift, SiteToPlan, Span, WorkToPlan } from './plan-input.js';
import { firstWithParts, hasParts } from './who-has-parts.js';

/** Why work is not in the plan: the first of these that holds. */
export type LeftOutReason =
  | 'no parts'
  | 'nobody has the skill'
  | 'nobody with the skill works in time'
  | 'no induction'
  | 'notice'
  | 'season'
  | 'not let in long enough'
  | 'ferry'
  | 'no second person'
  | 'handover'
  | 'promise cannot be kept'
  | 'rest'
  | 'overtime limit'
  | 'break'
  | 'on call'
  | 'order'
  | 'costs more than to wait'
  | 'no room';

/**
 * Says why work was left out, from the input alone, so that what to change is known: parts, a skill, a shift, access, a second person; else other work took the room.
 *
 * @param room whether there was any free place for it in the plan
 */
export function whyLeftOut(input: PlanInput, work: WorkToPlan, room: boolean): LeftOutReason {
  const partsFrom = firstWithParts(work);
  if (partsFrom === null || (work.promised !== null && work.promised.day < partsFrom)) return 'no parts';
  if (work.promised !== null) return 'promise cannot be kept';
  const { people, sites } = input;
  const able = people.filter((person) => isAbleAtAll(person, work, input.days));
  if (able.length === 0) return 'nobody has the skill';
  const days = Array.from({ length: input.days }, (_, day) => day).filter((day) => Number.isFinite(work.dayCost[day] as number) && day >= partsFrom);
  const working = days.filter((day) => able.some((person) => person.shifts[day] !== null && isAble(person, work.skills, day)));
  if (working.length === 0) return 'nobody with the skill works in time';
  const { entry = [] } = work;
  const mayEnter = (person: PersonToPlan, day: number) => person.shifts[day] !== null && isAble(person, entry, day);
  const entering = working.filter((day) => able.some((person) => mayEnter(person, day) && isAble(person, work.skills, day)));
  if (entering.length === 0) return 'no induction';
  const noticed = entering.filter((day) => isNoticed(work, day));
  if (noticed.length === 0) return 'notice';
  const inSeason = noticed.filter((day) => sites[work.site]?.inSeason?.[day] !== false);
  if (inSeason.length === 0) return 'season';
  const open = inSeason.filter((day) => (sites[work.site]?.open[day] ?? []).some(({ from, until }) => until - from >= work.minutes));
  if (open.length === 0) return sites[work.site]?.ferry !== undefined ? 'ferry' : 'not let in long enough';
  if (work.people === 2 && !open.some((day) => people.filter((person) => mayEnter(person, day)).length > 1)) return 'no second person';
  const brings = (person: PersonToPlan, day: number) =>
    mayEnter(person, day) && hasParts(work, people.indexOf(person), day) && (work.people === 2 || isAble(person, work.skills, day));
  if (!open.some((day) => people.some((person) => brings(person, day)))) return 'handover';
  const bound = boundBy(input, work, open, able, (person, day) => work.people === 2 || hasParts(work, person, day));
  if (bound !== null) return bound;
  return room ? 'costs more than to wait' : 'no room';
}

const isAbleAtAll = (person: PersonToPlan, { skills }: WorkToPlan, days: number): boolean =>
  Array.from({ length: days }, (_, day) => day).some((day) => isAble(person, skills, day));

/** What keeps work from a day of its own, with nothing else to do: the break, the boats, the rest or the limit of overtime by which shifts were cut, or a night that nobody on call spends away. */
function boundBy(
  { people, sites, travel }: PlanInput,
  { site, minutes, skills }: WorkToPlan,
  days: readonly number[],
  able: readonly PersonToPlan[],
  hasThem: (person: number, day: number) => boolean,
): LeftOutReason | null {
  const places = people.length + sites.length;
  const cutBy = new Set<'rest' | 'overtime' | 'break' | 'ferry'>();
  const isFar = people.every((_, home) => (travel.minutes[home * places + people.length + site] as number) > FAR_MINUTES);
  let onCall = false;
  for (const person of able) {
    const home = people.indexOf(person);
    const [out, back] = [home * places + people.length + site, (people.length + site) * places + home].map((way) => travel.minutes[way] as number);
    for (const day of days) {
      const shift = person.shifts[day];
      if (shift === null || shift === undefined || out === undefined || back === undefined || !isAble(person, skills, day)) continue;
      if (!hasThem(home, day)) continue;
      const { open, ferry } = sites[site] as SiteToPlan;
      const soonest = (withBreak: boolean, boats: Ferry | undefined) => homeAgain(person, shift, open[day] ?? [], { out, minutes, back, boats }, withBreak);
      const homeBy = soonest(false, ferry);
      if (soonest(true, ferry) <= shift.until) return null;
      if (homeBy <= shift.until) cutBy.add('break');
      else if (soonest(false, undefined) <= shift.until) cutBy.add('ferry');
      if (shift.uncut !== undefined && homeBy <= shift.uncut.until) cutBy.add(shift.uncut.by);
      if (!isFar || person.mostNights === 0) continue;
      if (person.onCall?.[day] !== true) return null;
      onCall = true;
    }
  }
  if (cutBy.has('break')) return 'break';
  if (cutBy.has('ferry')) return 'ferry';
  if (cutBy.has('rest')) return 'rest';
  if (cutBy.has('overtime')) return 'overtime limit';
  return onCall ? 'on call' : null;
}

/** When somebody is home again at the soonest, with nothing else to do; infinite: the site closes before. */
function homeAgain(
  { breakRule }: PersonToPlan,
  shift: Shift,
  open: readonly Span[],
  { out, minutes, back, boats }: { readonly out: number; readonly minutes: number; readonly back: number; readonly boats: Ferry | undefined },
  withBreak: boolean,
): number {
  const pause = withBreak ? usualBreak(breakRule, shift, []) : null;
  const ferry = boats && ferryAtWork(boats, pause);
  const there = nextBoat(ferry?.landings, toWorking(pause, shift.from) + out);
  const ends = open.map((span) => ({ end: Math.max(toWorking(pause, span.from), there) + minutes, until: toWorking(pause, span.until) }));
  return Math.min(...ends.filter(({ end, until }) => end <= until).map(({ end }) => endByClock(pause, nextBoat(ferry?.departures, end) + back)));
}
