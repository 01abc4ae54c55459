import { workKey } from '../core/plan-facts/facts.js';
import type { PlaceInPlan, WorkInPlan } from '../core/plan-facts/plan-changes.js';
import type { FactsForPlan } from './plan-facts-reader.js';
import type { FoundPlan } from './plan-to-store.js';
import type { StoredTour } from './stored-plan.js';
import type { StoredPlan } from './stored-plans.repository.js';

/** Where an earlier plan had work. */
export interface PlacedBefore extends PlaceInPlan {
  /** In a tour of several days: the search does not begin there */
  readonly overnight: boolean;
}

/** Where each piece of work is, by `workKey`, with all who go. */
export function placesIn(tours: readonly StoredTour[]): Map<string, PlacedBefore> {
  const places = new Map<string, PlacedBefore>();
  for (const { personId, personName, day, startsNear, endsNear, stops } of tours) {
    for (const stop of stops) {
      const others = places.get(workKey(stop));
      const people = [...(others?.people ?? []), { personId, name: personName }];
      const overnight = startsNear !== null || endsNear !== null || others?.overnight === true;
      places.set(workKey(stop), { day, startAt: stop.startAt, people, overnight });
    }
  }
  return places;
}

/** The work of a plan that is stored. What was accepted is the visit that was made of it. */
export function workOfStored({ tours, lines, leftOut }: StoredPlan): WorkInPlan[] {
  const places = placesIn(tours);
  const usual = { reason: '', urgent: false, promised: false };
  const made = lines.flatMap(({ acceptance, change, work, onDay, startTime, people }) => {
    if (acceptance === null || change !== 'new') return [];
    const place = { day: onDay, startAt: startTime, people };
    return [{ visitId: acceptance.visitId, no: acceptance.visit.no, place, keys: work.map(workKey) }];
  });
  const becameVisits = new Set(made.flatMap(({ keys }) => keys));
  const stops = new Map(tours.flatMap((tour) => tour.stops.map((stop) => [workKey(stop), stop] as const)));
  return [
    ...[...stops].flatMap(([key, { kind, id, text }]): WorkInPlan[] => {
      return becameVisits.has(key) ? [] : [{ ...usual, kind, id, text, place: places.get(key) ?? null }];
    }),
    ...made.map(({ visitId, no, place }): WorkInPlan => ({ ...usual, kind: 'visit', id: visitId, text: `Visit ${no}`, place })),
    ...leftOut.map(({ kind, workId, text, urgent, promised, reason }): WorkInPlan => {
      return { kind, id: workId, text, place: null, reason, urgent, promised };
    }),
  ];
}

/** The work of a plan that was just found. */
export function workOfFound({ tours, leftOut }: FoundPlan, { work, visitsThere }: FactsForPlan): WorkInPlan[] {
  const places = placesIn(tours);
  const urgent = new Set(work.flatMap((item) => (item.urgent ? [workKey(item)] : [])));
  const stops = new Map(tours.flatMap((tour) => tour.stops.map((stop) => [workKey(stop), stop] as const)));
  return [
    ...[...stops].map(([key, { kind, id, text }]): WorkInPlan => {
      return { kind, id, text, place: places.get(key) ?? null, reason: '', urgent: urgent.has(key), promised: false };
    }),
    ...leftOut.map(({ kind, workId, text, reason, promised, urgent: isUrgent }): WorkInPlan => {
      const there = visitsThere.find(({ id }) => kind === 'visit' && id === workId);
      const people = there?.personIds.map((personId, at) => ({ personId, name: there.personNames[at] ?? '' })) ?? [];
      const stands = there === undefined ? {} : { stands: { day: there.onDay, startAt: there.startTime, people } };
      return { kind, id: workId, text, place: null, reason, urgent: isUrgent, promised, ...stands };
    }),
  ];
}
