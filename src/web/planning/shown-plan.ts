import type { Schemas } from '../api/client.js';
import { type Limit, nearestLimits } from './drawing/nearest-limits.js';
import { minutesOf, type Stay, type Tour } from './drawing/tour-geometry.js';
import { type Line, staysByLine } from './lines.js';
import { lastFerry } from './way-there.js';
import { weekdayNo } from './weekday-no.js';

/** A plan with what is known of its people and sites. */
export interface ShownPlan {
  readonly people: readonly Schemas['PersonPlanningView'][];
  readonly sites: readonly Schemas['SitePlanningView'][];
  /** All of the plan, also where the tours are narrowed to one person */
  readonly lines: readonly Line[];
  readonly tours: readonly Tour[];
}

/** Of a line: what keeps it where it is, or how late it could end. */
export interface LimitedStay {
  readonly stay: Stay;
  readonly line: Line | undefined;
  readonly limit: Limit | null;
}

/** The stays of a tour with the nearest limit of each, by the shift of its person and the hours of its sites. */
export function limitedStays(tour: Tour, { people, sites, lines }: ShownPlan): LimitedStay[] {
  const stays = staysByLine(tour, lines);
  const lineOf = ({ group }: Stay) => lines.find(({ id }) => id === group);
  const shiftUntil = people.find(({ personId }) => personId === tour.personId)?.shiftUntil ?? null;
  const limits = nearestLimits(stays, {
    shiftUntil: shiftUntil === null ? null : minutesOf(shiftUntil),
    back: minutesOf(tour.backAt),
    letInUntil: (stay) => {
      const site = sites.find(({ siteId }) => siteId === stay.siteId);
      return site === undefined ? null : letInUntil(site, tour.day, stay.end);
    },
    isPromised: (stay) => lineOf(stay)?.promised === true,
  });
  return stays.map((stay, at) => ({ stay, line: lineOf(stay), limit: limits[at] ?? null }));
}

/** The end of the hours that hold the end of a stay, or the last ferry where it leaves before; null where people are let in at any time. */
function letInUntil(site: Schemas['SitePlanningView'], day: string, end: number): number | null {
  const { windows } = site;
  const ferry = lastFerry(site);
  const ends = windows.filter(({ days, from, until }) => days.includes(weekdayNo(day)) && minutesOf(from) <= end && minutesOf(until) >= end);
  const open = ends[0] === undefined ? null : minutesOf(ends[0].until);
  return open === null || (ferry !== null && ferry < open) ? ferry : open;
}
