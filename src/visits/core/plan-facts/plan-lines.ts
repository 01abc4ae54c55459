import { toWorking } from '../planner/breaks/working-clock.js';
import type { PlanInput, Span, VisitPlan } from '../planner/plan-input.js';
import type { PlacedFacts } from './facts.js';

/** A visit to make, or one that is there: what the same people do at one site in one go. */
export interface LineOfPlan {
  readonly people: readonly number[];
  readonly day: number;
  readonly site: number;
  readonly start: number;
  readonly end: number;
  /** Of the break that interrupts it or lies between two pieces of its work */
  readonly breakMinutes: number;
  /** Of the way there; of two people the longer one */
  readonly travelMinutes: number;
  /** Which way of the travel table that is */
  readonly way: number;
  /** Numbers of the work in the input */
  readonly work: readonly number[];
}

/** The tours of a plan as visits, in the order in which they take place. Visits that are there stay apart; new work is together where nobody waits in between, but for a break. */
export function linesOf(input: PlanInput, placed: readonly PlacedFacts[], { tours }: VisitPlan): LineOfPlan[] {
  const places = input.people.length + input.sites.length;
  const crews = crewsOf(tours);
  const lines: (LineOfPlan & { work: number[]; end: number; breakMinutes: number })[] = [];
  for (const { person, day, startPlace, pause, stops } of tours) {
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
      if (last !== null && !isVisit && last.site === site && sameCrew(last.people, people) && goesOn(last.end, stop.start, pause)) {
        last.work.push(stop.work);
        last.end = stop.end;
        last.breakMinutes = minutesOfBreak(pause, last.start, last.end);
        continue;
      }
      const breakMinutes = minutesOfBreak(pause, stop.start, stop.end);
      const line: (typeof lines)[number] = { people, day, site, start: stop.start, end: stop.end, breakMinutes, travelMinutes, way, work: [stop.work] };
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

const sameCrew = (one: readonly number[], other: readonly number[]): boolean => one.length === other.length && one.every((person) => other.includes(person));

const goesOn = (end: number, start: number, pause: Span | null): boolean => Math.abs(start - end - minutesOfBreak(pause, end, start)) < 1e-6;

const minutesOfBreak = (pause: Span | null, from: number, until: number): number => until - from - (toWorking(pause, until) - toWorking(pause, from));
