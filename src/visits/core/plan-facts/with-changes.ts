import type { Day } from '../../../shared/day.js';
import type { PlanFacts, WorkFacts } from './facts.js';

/** What has become known since a plan was made. */
export interface KnownSince {
  /** First and last day on which somebody is away */
  readonly absences: readonly { readonly personId: string; readonly from: Day; readonly until: Day }[];
  /** Of jobs, dues or visits: what they take now */
  readonly longWork: readonly { readonly id: string; readonly minutes: number }[];
  /** Of jobs, dues or visits: the day from which on their parts are there */
  readonly lateParts: readonly { readonly id: string; readonly from: Day }[];
  /** Jobs or dues that come before all that is not promised */
  readonly urgentIds: readonly string[];
}

/** The facts of a plan with what has become known since. */
export function withChanges<F extends PlanFacts>(facts: F, { absences, longWork, lateParts, urgentIds }: KnownSince): F {
  const minutesOf = new Map(longWork.map(({ id, minutes }) => [id, minutes]));
  const partsFrom = new Map(lateParts.map(({ id, from }) => [id, from]));
  const urgent = new Set(urgentIds);
  const awayOf = (id: string) => absences.filter(({ personId }) => personId === id).map(({ from, until }) => ({ from, until }));
  return {
    ...facts,
    people: facts.people.map((person) => ({ ...person, daysOff: [...person.daysOff, ...awayOf(person.id)] })),
    work: facts.work.map((item) => ({
      ...item,
      urgent: item.urgent || urgent.has(item.id),
      partsFromOn: partsFrom.get(item.id) ?? item.partsFromOn,
      partsInVans: partsFrom.has(item.id) ? undefined : item.partsInVans,
      partsMissing: partsFrom.has(item.id) ? undefined : item.partsMissing,
      tasks: tasksOf(item, minutesOf.get(item.id)),
    })),
    visits: facts.visits.map((visit) => ({
      ...visit,
      minutes: minutesOf.get(visit.id) ?? visit.minutes,
      partsFromOn: partsFrom.get(visit.id) ?? visit.partsFromOn,
    })),
  };
}

/** One task of so many minutes with the crew and the skills of all. */
function tasksOf({ tasks }: WorkFacts, minutes: number | undefined): WorkFacts['tasks'] {
  if (minutes === undefined) return tasks;
  return [{ minutes, crew: Math.max(1, ...tasks.map(({ crew }) => crew)), skills: [...new Set(tasks.flatMap(({ skills }) => skills))] }];
}
