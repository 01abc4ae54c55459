import { type Day, dayInWords, daysBetween } from '../../shared/day.js';
import { mustNotMeet } from '../../shared/incompatibility.js';
import type { JobState } from '../../shared/work.js';
import { type BreakTimes, isRoomForBreak } from './break-of-visit.js';
import type { TravelSource } from './travel/travel-table.js';
import { MINUTES_ASSUMED } from './visit-minutes.js';
import { localTime, overlap, type Span, visitSpan } from './visit-span.js';

/** A visit as it is, or as it would be. */
export interface PlannedVisit {
  readonly onDay: Day;
  readonly startTime: string;
  readonly minutes: number;
  readonly timeZone: string;
  /** Left out: none lies within it */
  readonly breakMinutes?: number;
  readonly people: number;
  readonly tasks: readonly PlannedTask[];
}

export interface PlannedTask {
  readonly task: string;
  readonly skidName: string;
  readonly earliestOn: Day | null;
  readonly latestOn: Day | null;
  /** Usual minutes; null: not known */
  readonly minutes: number | null;
  readonly crew: number;
  /** What its sheet takes along; unset: nothing */
  readonly chemicals?: readonly string[];
}

/** Another visit of somebody who goes. */
export interface OtherVisit {
  readonly no: number;
  readonly siteName: string;
  readonly personId: string;
  readonly personName: string;
  readonly minutes: number;
  readonly span: Span;
  /** From there to this site, and back; unset: at this site, or a position is not known */
  readonly ways?: { readonly here: WayTime; readonly back: WayTime };
}

interface WayTime {
  readonly minutes: number;
  readonly source: TravelSource;
}

/** The break of somebody who goes. */
export interface BreakOfPerson extends BreakTimes {
  readonly personId: string;
  readonly personName: string;
}

/** A job of this visit that is to be done after one that is neither done nor in it. */
export interface JobAfter {
  readonly no: number;
  readonly afterNo: number;
  readonly afterState: JobState;
  /** What that one waits for */
  readonly afterNote: string;
  /** The visit that holds it; unset: none */
  readonly held?: { readonly no: number; readonly onDay: Day; readonly startTime: string; readonly timeZone: string } | undefined;
}

/** What the client was told. */
export interface Promised {
  readonly onDay: Day;
  readonly startTime: string;
}

export const CONSEQUENCES = [
  'promise',
  'overlap',
  'way',
  'break',
  'after the latest day',
  'before the earliest day',
  'past',
  'next day',
  'people',
  'time assumed',
  'chemicals',
  'order',
] as const;

export interface Consequence {
  readonly about: (typeof CONSEQUENCES)[number];
  readonly text: string;
}

/**
 * What follows from going there then with these people, in words; nothing where nothing speaks against it.
 *
 * @example consequences({ onDay: '2026-12-03', startTime: '08:00', minutes: 60, timeZone: 'UTC', people: 1, tasks: [{ task: 'Change the oil', skidName: 'UF 1', earliestOn: null, latestOn: '2026-12-01', minutes: 60, crew: 1 }] }, [], null, '2026-11-25')[0].text // => "2 days after the latest day of Change the oil at UF 1 (1 Dec)"
 */
export function consequences(
  visit: PlannedVisit,
  others: readonly OtherVisit[],
  promised: Promised | null,
  today: Day,
  breaks: readonly BreakOfPerson[] = [],
  order: readonly JobAfter[] = [],
): Consequence[] {
  return [
    ...promiseMoved(visit, promised, today),
    ...overlaps(visit, others, today),
    ...tooLittleTimeBetween(visit, others, today),
    ...breaks.flatMap((rule) => noBreak(visit, rule, others, today)),
    ...order.flatMap((job) => outOfOrder(visit, job, today)),
    ...visit.tasks.flatMap((task) => outOfTime(visit.onDay, task, today)),
    ...(visit.onDay < today ? [said('past', `${dayInWords(visit.onDay, today)} has passed: this records a visit after the fact`)] : []),
    ...pastMidnight(visit, today),
    ...tooFew(visit),
    ...keptApart(visit),
    ...assumedTimes(visit),
  ];
}

const said = (about: Consequence['about'], text: string): Consequence => ({ about, text });
const days = (count: number) => (count === 1 ? '1 day' : `${count} days`);

function promiseMoved({ onDay, startTime }: PlannedVisit, promised: Promised | null, today: Day): Consequence[] {
  if (promised === null || (promised.onDay === onDay && promised.startTime === startTime)) return [];
  return [
    said('promise', `The client was promised ${dayInWords(promised.onDay, today)} at ${promised.startTime}: say why in tellClient, which the client reads`),
  ];
}

function overlaps(visit: PlannedVisit, others: readonly OtherVisit[], today: Day): Consequence[] {
  const span = visitSpan(visit);
  return others
    .filter((other) => overlap(span, other.span))
    .map(({ no, siteName, personName, span: { fromMs, toMs } }) => {
      // The times of the other visit as the clock of this site shows them, so that the two can be compared.
      const [from, to] = [localTime(fromMs, visit.timeZone), localTime(toMs, visit.timeZone)];
      return said('overlap', `${personName} is at ${siteName} on ${dayInWords(from.day, today)} from ${from.time} to ${to.time} (visit ${no})`);
    });
}

/** The way from the visit before or to the one after takes longer than there is between the two. */
function tooLittleTimeBetween(visit: PlannedVisit, others: readonly OtherVisit[], today: Day): Consequence[] {
  const span = visitSpan(visit);
  return others.flatMap(({ no, siteName, personName, span: other, ways }) => {
    if (ways === undefined || overlap(span, other)) return [];
    const isBefore = other.toMs <= span.fromMs;
    const [{ minutes, source }, between] = isBefore ? [ways.here, span.fromMs - other.toMs] : [ways.back, other.fromMs - span.toMs];
    const left = Math.floor(between / 60_000);
    if (minutes <= left) return [];
    const at = localTime(isBefore ? other.toMs : other.fromMs, visit.timeZone);
    const when = `${dayInWords(at.day, today)} ${isBefore ? 'until' : 'from'} ${at.time}`;
    const way = `the way ${isBefore ? 'from there' : 'there'} takes ${Math.ceil(minutes)} minutes (${source})`;
    return [said('way', `${personName} is at ${siteName} on ${when} (visit ${no}), and ${way}: ${left} are between`)];
  });
}

/** With the other visits of the day no time is left for the break; the ways between those are not known here. */
function noBreak(visit: PlannedVisit, rule: BreakOfPerson, others: readonly OtherVisit[], today: Day): Consequence[] {
  const own = others.filter(({ personId, span }) => personId === rule.personId && localTime(span.fromMs, visit.timeZone).day === visit.onDay);
  const at = visitSpan(visit).fromMs;
  const [before, after] = [own.filter(({ span }) => span.fromMs < at), own.filter(({ span }) => span.fromMs >= at)];
  const timed = (other: OtherVisit, way: number) => ({ startTime: localTime(other.span.fromMs, visit.timeZone).time, minutes: other.minutes, way });
  const day = [
    ...before.map((other) => timed(other, 0)),
    { startTime: visit.startTime, minutes: visit.minutes, way: before.at(-1)?.ways?.here.minutes ?? 0 },
    ...after.map((other, place) => timed(other, place === 0 ? (other.ways?.back.minutes ?? 0) : 0)),
  ];
  if (isRoomForBreak(rule, day)) return [];
  const { personName, minutes, from, until } = rule;
  return [said('break', `${personName} has no room on ${dayInWords(visit.onDay, today)} for the break of ${minutes} minutes between ${from} and ${until}`)];
}

function outOfTime(onDay: Day, { task, skidName, earliestOn, latestOn }: PlannedTask, today: Day): Consequence[] {
  if (latestOn !== null && onDay > latestOn) {
    return [
      said('after the latest day', `${days(daysBetween(latestOn, onDay))} after the latest day of ${task} at ${skidName} (${dayInWords(latestOn, today)})`),
    ];
  }
  if (earliestOn !== null && onDay < earliestOn) {
    const early = `${days(daysBetween(onDay, earliestOn))} before the earliest sensible day of ${task} at ${skidName} (${dayInWords(earliestOn, today)})`;
    return [said('before the earliest day', early)];
  }
  return [];
}

function outOfOrder(visit: PlannedVisit, { no, afterNo, afterState, afterNote, held }: JobAfter, today: Day): Consequence[] {
  const that = (why: string) => [said('order', `Job ${no} is to be done after job ${afterNo}, which ${why}`)];
  if (held === undefined) return that(afterState === 'waiting' ? `waits${afterNote === '' ? '' : ` (${afterNote})`}` : 'is in no visit');
  const later = beginsAt(held) - beginsAt(visit);
  if (later < 0) return [];
  return that(`is in ${later > 0 ? 'a later visit' : 'another visit at the same time'} (${dayInWords(held.onDay, today)}, visit ${held.no})`);
}

const beginsAt = (visit: Pick<PlannedVisit, 'onDay' | 'startTime' | 'timeZone'>): number => visitSpan({ ...visit, minutes: 0 }).fromMs;

function pastMidnight(visit: PlannedVisit, today: Day): Consequence[] {
  const end = localTime(visitSpan(visit).toMs - 1, visit.timeZone);
  if (end.day === visit.onDay) return [];
  const until = localTime(visitSpan(visit).toMs, visit.timeZone);
  return [said('next day', `The work goes on until ${until.time} on ${dayInWords(until.day, today)}: start earlier, send more people, or make a second visit`)];
}

function tooFew({ people, tasks }: PlannedVisit): Consequence[] {
  const most = tasks.reduce((worst, task) => (task.crew > (worst?.crew ?? people) ? task : worst), undefined as PlannedTask | undefined);
  return most === undefined ? [] : [said('people', `${most.task} at ${most.skidName} needs ${most.crew} people; ${people === 1 ? '1 goes' : `${people} go`}`)];
}

/** What one visit takes along and uses at one skid after another: every pair once, with the tasks that bring it. */
function keptApart({ tasks }: PlannedVisit): Consequence[] {
  const users = new Map<string, Set<string>>();
  for (const { task, skidName, chemicals = [] } of tasks)
    for (const chemical of chemicals) users.set(chemical, (users.get(chemical) ?? new Set()).add(`${task} at ${skidName}`));
  const all = [...users];
  return all.flatMap(([one, first], at) =>
    all.slice(at + 1).flatMap(([other, second]) => {
      const danger = mustNotMeet(one, other);
      if (danger === null) return [];
      const why = [...new Set([...first, ...second])].join(', ');
      return [
        said(
          'chemicals',
          `${one} and ${other} must not meet (${danger.happens}). The visit takes both for ${why}: a bay of the van for each, and a rinse between until no chlorine shows and the pH is that of the feed. Or make two visits`,
        ),
      ];
    }),
  );
}

function assumedTimes({ tasks }: PlannedVisit): Consequence[] {
  const unknown = tasks.filter(({ minutes }) => minutes === null);
  const names = unknown.map(({ task }) => task).join(', ');
  return unknown.length === 0 ? [] : [said('time assumed', `No usual time is known for ${names}: ${MINUTES_ASSUMED} minutes are assumed for each`)];
}
