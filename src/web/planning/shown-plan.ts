import type { Schemas } from '../api/client.js';
import { type Limit, nearestLimits } from './nearest-limits.js';
import type { Line } from './plan-lines.js';
import { minutesOf, type Stay, staysOf, type Tour } from './tour-geometry.js';
import { weekdayNo } from './weekday-no.js';

/** A plan with what is known of its people and sites. */
export interface ShownPlan {
  readonly people: readonly Schemas['PersonPlanningView'][];
  readonly sites: readonly Schemas['SitePlanningView'][];
  /** All of the plan, also where the tours are narrowed to one person */
  readonly lines: readonly Line[];
  readonly tours: readonly Tour[];
}

/** An agreed visit keeps its day, time and people. */
export const isAgreed = ({ stops }: Stay): boolean => stops.some(({ kind }) => kind === 'visit');

/** The stays of a tour with the nearest limit of each, by the shift of its person and the hours of its sites. */
export function limitedStays(tour: Tour, { people, sites }: Pick<ShownPlan, 'people' | 'sites'>): { readonly stay: Stay; readonly limit: Limit | null }[] {
  const stays = staysOf(tour);
  const shiftUntil = people.find(({ personId }) => personId === tour.personId)?.shiftUntil ?? null;
  const limits = nearestLimits(stays, {
    shiftUntil: shiftUntil === null ? null : minutesOf(shiftUntil),
    back: minutesOf(tour.backAt),
    letInUntil: (stay) => letInUntil(sites.find(({ siteId }) => siteId === stay.siteId)?.windows ?? [], tour.day, stay.end),
    isPromised: isAgreed,
  });
  return stays.map((stay, at) => ({ stay, limit: limits[at] ?? null }));
}

/** The end of the hours that hold the end of a stay; null where people are let in at any time. */
function letInUntil(windows: Schemas['SitePlanningView']['windows'], day: string, end: number): number | null {
  const ends = windows.filter(({ days, from, until }) => days.includes(weekdayNo(day)) && minutesOf(from) <= end && minutesOf(until) >= end);
  return ends[0] === undefined ? null : minutesOf(ends[0].until);
}
