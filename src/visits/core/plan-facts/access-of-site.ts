import type { Day } from '../../../shared/day.js';
import type { Ferry as Boats, Span } from '../planner/plan-input.js';
import { minutesOfDay, weekday } from './local-time.js';

const DAY_MINUTES = 24 * 60;
const MONTHS = ['January', 'February', 'March', 'April', 'May', 'June', 'July', 'August', 'September', 'October', 'November', 'December'];

/** Departures at the mainland and at the site, as HH:MM in their order, and how long the crossing takes. */
export interface Ferry {
  readonly out: readonly string[];
  readonly back: readonly string[];
  readonly minutes: number;
}

/** How people get into a site; what is left out does not bound them. */
export interface AccessFacts {
  /** None: people are let in at any time */
  readonly windows: readonly { readonly days: readonly number[]; readonly from: string; readonly until: string }[];
  readonly ferry?: Ferry | null;
  /** 1 January to 12 December; none: all year */
  readonly openMonths?: readonly number[];
}

/** Whether the road is open in the month of a day. */
export const isInSeason = ({ openMonths = [] }: Pick<AccessFacts, 'openMonths'>, day: Day): boolean =>
  openMonths.length === 0 || openMonths.includes(Number(day.slice(5, 7)));

/**
 * Between which times of a day people can be at a site, in minutes of the day: while they are let in, from the first arrival of the ferry to its last departure, in months in which the
 * road is open.
 *
 * @example openOn({ windows: [{ days: [2], from: '08:00', until: '16:00' }], ferry: { out: ['07:30', '12:00'], back: ['11:00', '15:00'], minutes: 60 } }, '2026-12-01') // => [{ "from": 510, "until": 900 }]
 * @example openOn({ windows: [], openMonths: [5, 6] }, '2026-12-01') // => []
 */
export function openOn(site: AccessFacts, day: Day): Span[] {
  if (!isInSeason(site, day)) return [];
  const { windows, ferry = null } = site;
  const own = windows.filter(({ days }) => days.includes(weekday(day))).map(({ from, until }) => ({ from: minutesOfDay(from), until: minutesOfDay(until) }));
  const open = windows.length === 0 ? [{ from: 0, until: DAY_MINUTES }] : own.sort((one, two) => one.from - two.from);
  const there = ferry === null ? null : stayBetween(ferry);
  if (there === null) return open;
  return open.map(({ from, until }) => ({ from: Math.max(from, there.from), until: Math.min(until, there.until) })).filter(({ from, until }) => from < until);
}

/**
 * When boats are at the site.
 *
 * @example boatsOf({ out: ['07:30', '12:00'], back: ['11:00', '15:00'], minutes: 60 }) // => { "landings": [510, 780], "departures": [660, 900] }
 */
export const boatsOf = ({ out, back, minutes }: Ferry): Boats => ({
  landings: out.map((time) => minutesOfDay(time) + minutes),
  departures: back.map(minutesOfDay),
});

/** From the first arrival to the last departure. */
export const stayBetween = ({ out, back, minutes }: Ferry): Span => ({
  from: Math.min(...out.map(minutesOfDay)) + minutes,
  until: Math.max(...back.map(minutesOfDay)),
});

/**
 * How people get into a site, in sentences.
 *
 * @example accessInWords({ ferry: { out: ['07:30'], back: ['17:00'], minutes: 40 }, openMonths: [], escort: true, noticeDays: 3, inductions: [], mayWorkAlone: true, accessNote: '' }) // => ["By ferry: out 07:30, back 17:00; the crossing takes 40 minutes.", "Nobody goes about the site without an escort.", "The site wants 3 days of notice."]
 * @example accessInWords({ ferry: null, openMonths: [5, 6], escort: false, noticeDays: 0, inductions: ['Induction Alder'], mayWorkAlone: false, accessNote: 'Ask at gate 2.' }) // => ["The road is open in May and June only.", "Whoever enters holds: Induction Alder.", "Nobody works there alone.", "Ask at gate 2."]
 */
export function accessInWords(site: {
  readonly ferry: Ferry | null;
  readonly openMonths: readonly number[];
  readonly escort: boolean;
  readonly noticeDays: number;
  readonly inductions: readonly string[];
  readonly mayWorkAlone: boolean;
  readonly accessNote: string;
}): string[] {
  const { ferry, openMonths, escort, noticeDays, inductions, mayWorkAlone, accessNote } = site;
  return [
    ferry === null ? '' : `By ferry: out ${ferry.out.join(', ')}, back ${ferry.back.join(', ')}; the crossing takes ${ferry.minutes} minutes.`,
    openMonths.length === 0 ? '' : `The road is open in ${monthsInWords(openMonths)} only.`,
    escort ? 'Nobody goes about the site without an escort.' : '',
    noticeDays === 0 ? '' : `The site wants ${noticeDays === 1 ? '1 day' : `${noticeDays} days`} of notice.`,
    inductions.length === 0 ? '' : `Whoever enters holds: ${inductions.join(', ')}.`,
    mayWorkAlone ? '' : 'Nobody works there alone.',
    accessNote,
  ].filter((sentence) => sentence !== '');
}

function monthsInWords(months: readonly number[]): string {
  const names = months.map((month) => MONTHS[month - 1] ?? '');
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}
