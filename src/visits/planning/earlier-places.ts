import { daysBetween } from '../../shared/day.js';
import { workKey } from '../core/plan-facts/facts.js';
import type { InputFromFacts } from '../core/plan-facts/input-from-facts.js';
import type { EarlierPlace } from '../core/planner/begin-from.js';
import type { FactsForPlan } from './plan-facts-reader.js';
import type { PlacedBefore } from './work-of-plan.js';

/** Where the search begins: visits where they are, other work where an earlier plan had it; nothing where there was no earlier plan. */
export function placesBefore({ work }: InputFromFacts, { people, firstDay, days }: FactsForPlan, before: ReadonlyMap<string, PlacedBefore>): EarlierPlace[] {
  if (before.size === 0) return [];
  const personAt = new Map(people.map(({ id }, at) => [id, at]));
  return work.flatMap((item, at) => {
    const earlier = before.get(workKey(item));
    const place =
      item.kind === 'visit'
        ? { personIds: item.personIds, onDay: item.onDay, startTime: item.startTime }
        : earlier === undefined || earlier.overnight
          ? null
          : { personIds: earlier.people.map(({ personId }) => personId), onDay: earlier.day, startTime: earlier.startAt };
    const day = place === null ? -1 : daysBetween(firstDay, place.onDay);
    if (place === null || day < 0 || day >= days) return [];
    const start = minutesOfDay(place.startTime);
    return place.personIds.flatMap((id) => {
      const person = personAt.get(id);
      return person === undefined ? [] : [{ work: at, person, day, start }];
    });
  });
}

function minutesOfDay(time: string): number {
  const [hour = 0, minute = 0] = time.split(':').map(Number);
  return hour * 60 + minute;
}
