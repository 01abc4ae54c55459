import type { PlanInput, TourStop, VisitPlan } from '../planner/plan-input.js';
import type { PlacedFacts } from './input-from-facts.js';

/** A visit to make, or one that is there: what the same people do at one site in one go. */
export interface LineOfPlan {
  readonly people: readonly number[];
  readonly day: number;
  readonly site: number;
  readonly start: number;
  readonly end: number;
  /** Of the way there; of two people the longer one */
  readonly travelMinutes: number;
  /** Which way of the travel table that is */
  readonly way: number;
  /** Numbers of the work in the input */
  readonly work: readonly number[];
}

/** The tours of a plan as visits, in the order in which they take place. Visits that are there stay apart; new work is together where nobody waits in between. */
export function linesOf(input: PlanInput, placed: readonly PlacedFacts[], { tours }: VisitPlan): LineOfPlan[] {
  const places = input.people.length + input.sites.length;
  const crews = crewsOf(tours);
  const lines: (LineOfPlan & { work: number[]; end: number })[] = [];
  for (const { person, day, startPlace, stops } of tours) {
    let place = startPlace;
    let last: (typeof lines)[number] | null = null;
    for (const stop of stops) {
      const site = input.work[stop.work]?.site ?? 0;
      const there = input.people.length + site;
      const way = place * places + there;
      const travelMinutes = input.travel.minutes[way] as number;
      place = there;
      const people = crews.get(stop.work) ?? [person];
      if (people[0] !== person) {
        last = null;
        const line = lines.find((each) => each.work.includes(stop.work));
        if (line !== undefined && line.travelMinutes < travelMinutes) lines[lines.indexOf(line)] = { ...line, travelMinutes, way };
        continue;
      }
      const isVisit = placed[stop.work]?.kind === 'visit';
      if (last !== null && !isVisit && joins(last, stop, site, people)) {
        last.work.push(stop.work);
        last.end = stop.end;
        continue;
      }
      const line = { people, day, site, start: stop.start, end: stop.end, travelMinutes, way, work: [stop.work] };
      lines.push(line);
      last = isVisit ? null : line;
    }
  }
  return lines.sort((one, two) => one.day - two.day || one.start - two.start || (one.people[0] ?? 0) - (two.people[0] ?? 0));
}

/** Who goes, by the number of the work; in the order of the tours. */
function crewsOf(tours: VisitPlan['tours']): Map<number, number[]> {
  const crews = new Map<number, number[]>();
  for (const { person, stops } of tours) for (const { work } of stops) crews.set(work, [...(crews.get(work) ?? []), person]);
  return crews;
}

const joins = (line: LineOfPlan, { start }: TourStop, site: number, people: readonly number[]): boolean =>
  line.site === site && Math.abs(line.end - start) < 1e-6 && line.people.length === people.length && line.people.every((person) => people.includes(person));
