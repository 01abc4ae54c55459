import { type Day, dayPlus } from '../../../shared/day.js';
import type { PlanFacts, WorkFacts } from './facts.js';

/** Somebody more, who lives and works like somebody who is there, with these skills; unchanged where nobody is like that. */
export function withOneMore<F extends PlanFacts>(facts: F, { likePersonId, skills }: { readonly likePersonId: string; readonly skills: readonly string[] }): F {
  const { people, sites, travel } = facts;
  const like = people.findIndex(({ id }) => id === likePersonId);
  const person = people[like];
  if (person === undefined) return facts;
  const more = { ...person, id: `one more like ${person.id}`, name: `One more like ${person.name}`, skills: skills.map((skill) => ({ skill, lastOn: null })) };
  const added = { ...facts, people: [...people, { ...more, daysOff: [], onCall: [] }] };
  if (travel === undefined) return added;
  const [places, before] = [people.length + sites.length + 1, people.length + sites.length];
  const was = (place: number) => (place < people.length ? place : place === people.length ? like : place - 1);
  const wayAt = Array.from({ length: places * places }, (_, at) => was(Math.floor(at / places)) * before + was(at % places));
  const { minutes, km, sources } = travel;
  const table = {
    minutes: Float64Array.from(wayAt, (at) => minutes[at] as number),
    km: Float64Array.from(wayAt, (at) => km[at] as number),
    ...(sources === undefined ? {} : { sources: Uint8Array.from(wayAt, (at) => sources[at] as number) }),
  };
  return { ...added, travel: table };
}

/** Nothing that may be shifted is done before so many days have passed; the plan is as long as before. */
export function withAllLater<F extends PlanFacts>(facts: F, days: number): F {
  const from = dayPlus(facts.firstDay, days);
  return notBefore(facts, () => from);
}

/** This work, and these visits as far as they may be shifted, are not done before the day named with each. */
export function withSomeLater<F extends PlanFacts>(facts: F, later: readonly { readonly id: string; readonly from: Day }[]): F {
  const days = new Map(later.map(({ id, from }) => [id, from]));
  return notBefore(facts, (id) => days.get(id));
}

function notBefore<F extends PlanFacts>(facts: F, fromOf: (id: string) => Day | undefined): F {
  const laterOf = (day: Day | null, from: Day | undefined) => (from === undefined || (day !== null && day > from) ? day : from);
  const later = ({ id, partsFromOn }: { readonly id: string; readonly partsFromOn: Day | null }) => ({ partsFromOn: laterOf(partsFromOn, fromOf(id)) });
  const vans = ({ id, partsInVans }: WorkFacts) => ({ partsInVans: partsInVans?.map((van) => ({ ...van, fromOn: laterOf(van.fromOn, fromOf(id)) })) });
  return {
    ...facts,
    work: facts.work.map((item) => ({ ...item, ...later(item), ...vans(item) })),
    visits: facts.visits.map((visit) => (visit.stays ? visit : { ...visit, ...later(visit) })),
  };
}
