import { addMinutes } from 'date-fns/addMinutes';
import ical, { ICalCalendarMethod, ICalEventStatus } from 'ical-generator';
import type { CalendarVisitRow } from './calendar.repository.js';
import { visitStart } from './core/visit-start.js';
import { noticeWords } from './core/words.js';

const REREAD_SECONDS = 3_600;

const STATUS = {
  planned: ICalEventStatus.TENTATIVE,
  promised: ICalEventStatus.CONFIRMED,
  'under way': ICalEventStatus.CONFIRMED,
  finished: ICalEventStatus.CONFIRMED,
  'called off': ICalEventStatus.CANCELLED,
} as const;

/**
 * Visits as iCalendar (RFC 5545). Times are given in UTC, reckoned from the clock of the site, so that a calendar in any zone shows the right one;
 * a visit that was shifted keeps its UID and has a higher SEQUENCE.
 */
export function calendarText(
  visits: readonly CalendarVisitRow[],
  about: { name: string; forClient: boolean; publicUrl: string | undefined; now: Date },
): string {
  const calendar = ical({
    name: about.name,
    method: ICalCalendarMethod.PUBLISH,
    prodId: { company: 'Skidkeep', product: 'Visits', language: 'EN' },
    ttl: REREAD_SECONDS,
  });
  for (const visit of visits) {
    const start = visitStart(visit.onDay, visit.startTime, visit.timeZone);
    const { siteName, clientName, latitude, longitude } = visit;
    const title = `${siteName}, ${clientName}`;
    const event = calendar.createEvent({
      id: `visit-${visit.id}@skidkeep`,
      sequence: visit.version,
      stamp: about.now,
      start,
      end: addMinutes(start, visit.minutes + visit.breakMinutes),
      summary: noticeWords.calendar.summary(siteName, visit.jobs.length),
      location: latitude === null || longitude === null ? title : { title, geo: { lat: latitude, lon: longitude } },
      description: describe(visit, about.forClient),
      status: STATUS[visit.state],
    });
    if (about.publicUrl !== undefined && !about.forClient) event.url(`${about.publicUrl}/visits/${visit.id}`);
  }
  return calendar.toString();
}

function describe({ startTime, timeZone, people, jobs, accessHours, noteToClient }: CalendarVisitRow, forClient: boolean): string {
  const words = noticeWords.calendar;
  return [
    words.siteTime(startTime, timeZone),
    ...(people.length === 0 ? [] : [words.people(people)]),
    ...(accessHours === '' || forClient ? [] : [words.access(accessHours)]),
    ...jobs.map(({ no, title, skidName }) => `${skidName}, ${noticeWords.job(no, title)}`),
    ...(noteToClient === '' ? [] : [noteToClient]),
  ].join('\n');
}
