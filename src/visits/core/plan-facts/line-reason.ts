import { type Day, dayInWords } from '../../../shared/day.js';
import type { PlacedFacts } from './facts.js';
import type { InputFromFacts } from './input-from-facts.js';
import type { OvertimeBefore } from './overtime-before.js';
import type { LineOfPlan } from './plan-lines.js';
import { moneyFor, type PlanRates } from './plan-prices.js';

/** What keeps a line where it is. */
export interface WhyOfLine {
  /** The nearest of the latest days of its work, and of which work; null: none is known */
  readonly limitOn: Day | null;
  readonly limitOf: string | null;
  /** What going a day later counts as, in minutes of work; null: not within the plan */
  readonly dayLaterMinutes: number | null;
  /** Other sites of the same people on that day */
  readonly withSites: readonly string[];
  /** Why it is not shifted; null: it may be */
  readonly kept: 'promised' | 'agreed' | null;
  /** Urgent work that comes before there is time for the notice that the site wants */
  readonly shortNotice: boolean;
  /** One piece of its new work after another */
  readonly waterOffMinutes: number;
  /** Other work that is done before it */
  readonly after: readonly string[];
  /** Vans that its parts are taken from, and whether their people are among those who go */
  readonly vans: readonly VanOfLine[];
  /** Of those who go, in the week of the line, as far as it has a limit */
  readonly overtimeBefore: readonly OvertimeOfLine[];
}

interface OvertimeOfLine extends OvertimeBefore {
  readonly name: string;
}

interface VanOfLine {
  readonly name: string;
  readonly goes: boolean;
}

/** Why a line is where it is: the nearest limit, what a day later costs, and what it shares the trip with. */
export function whyOfLine({ input, work, personIds, overtimeBefore }: InputFromFacts, line: LineOfPlan, lines: readonly LineOfPlan[]): WhyOfLine {
  const placed = line.work.flatMap((at) => work[at] ?? []);
  const limited = placed
    .flatMap((item) => (item.latestOn === null ? [] : [{ on: item.latestOn, text: item.text }]))
    .sort((a, b) => (a.on + a.text < b.on + b.text ? -1 : 1));
  const later = line.work.map((at) => {
    const costs = input.work[at]?.dayCost;
    return (costs?.[line.day + 1] ?? Number.POSITIVE_INFINITY) - (costs?.[line.day] ?? 0);
  });
  const more = later.reduce((sum, minutes) => sum + minutes, 0);
  const goers = new Set(line.people.map((at) => personIds[at]));
  const vans = new Map(placed.flatMap((item) => (item.kind === 'visit' ? [] : (item.partsInVans ?? []).map((van) => [van.personId, van] as const))));
  const sameTrip = lines.filter((other) => other.day === line.day && other.site !== line.site && other.people.some((person) => line.people.includes(person)));
  return {
    limitOn: limited[0]?.on ?? null,
    limitOf: limited[0]?.text ?? null,
    dayLaterMinutes: Number.isFinite(more) ? more : null,
    withSites: [...new Set(sameTrip.map(({ site }) => input.sites[site]?.name ?? ''))],
    kept: keptBy(placed[0]),
    shortNotice: line.work.some((at) => input.work[at]?.urgent === true && (input.work[at]?.noticeFrom ?? 0) > line.day),
    waterOffMinutes: placed.reduce((sum, item) => sum + (item.kind === 'visit' ? 0 : (item.waterOffMinutes ?? 0)), 0),
    after: [...new Set(line.work.flatMap((at) => input.work[at]?.after ?? []))].flatMap((at) => (line.work.includes(at) ? [] : (work[at]?.text ?? []))),
    overtimeBefore: overtimeOf(
      line.people.filter((at) => input.people[at]?.overtime?.weekOf[line.day] === 0),
      input,
      overtimeBefore,
    ),
    vans: [...vans.values()].map(({ personId, name }) => ({ name, goes: goers.has(personId) })),
  };
}

/** What these people have had of the overtime of the first week, as far as it has a limit. */
export function overtimeOf(people: readonly number[], input: InputFromFacts['input'], before: InputFromFacts['overtimeBefore']): OvertimeOfLine[] {
  return people.flatMap((at) => {
    const [person, had] = [input.people[at], before[at] ?? null];
    return person === undefined || had === null || had.minutes === 0 ? [] : [{ name: person.name, ...had }];
  });
}

function keptBy(item: PlacedFacts | undefined): WhyOfLine['kept'] {
  if (item?.kind !== 'visit' || !item.stays) return null;
  return item.promised ? 'promised' : 'agreed';
}

/**
 * Why a line is there, in sentences; what a day later costs in money where rates are given, else in minutes of work.
 *
 * @example reasonOfLine({ limitOn: '2026-12-02', limitOf: 'Change the oil, UF 1', dayLaterMinutes: 90, withSites: ['Alder'], kept: null, shortNotice: false, waterOffMinutes: 0, after: [], vans: [], overtimeBefore: [] }, '2026-12-02', null) // => "The latest day of Change the oil, UF 1 is 2 Dec. A day later counts as 90 minutes of work. Shares the trip with Alder."
 * @example reasonOfLine({ limitOn: null, limitOf: null, dayLaterMinutes: 0, withSites: [], kept: null, shortNotice: false, waterOffMinutes: 0, after: [], vans: [{ name: 'Ada', goes: true }, { name: 'Bo', goes: false }], overtimeBefore: [] }, '2026-12-02', null) // => "No latest day is known. A day later costs nothing. The only site of the trip. Parts are in the van of Ada. Parts are in the van of Bo: have them handed over before."
 * @example reasonOfLine({ limitOn: null, limitOf: null, dayLaterMinutes: 0, withSites: [], kept: null, shortNotice: false, waterOffMinutes: 45, after: ['Job 12: Mend the vessel, UF 1'], vans: [], overtimeBefore: [] }, '2026-12-02', null) // => "No latest day is known. A day later costs nothing. The only site of the trip. The water is off for 45 minutes. Comes after Job 12: Mend the vessel, UF 1."
 * @example reasonOfLine({ limitOn: null, limitOf: null, dayLaterMinutes: 0, withSites: [], kept: 'promised', shortNotice: false, waterOffMinutes: 0, after: [], vans: [], overtimeBefore: [] }, '2026-12-02', null) // => "The client was promised this day and time. The only site of the trip."
 */
export function reasonOfLine(
  { limitOn, limitOf, dayLaterMinutes, withSites, kept, shortNotice, waterOffMinutes, after, vans, overtimeBefore }: WhyOfLine,
  day: Day,
  rates: PlanRates | null,
): string {
  const trip = withSites.length === 0 ? 'The only site of the trip.' : `Shares the trip with ${withSites.join(', ')}.`;
  if (kept === 'promised') return `The client was promised this day and time. ${trip}`;
  if (kept === 'agreed') return `It is agreed on and stays where it is. ${trip}`;
  const limit = limitOn === null ? 'No latest day is known.' : `The latest day of ${limitOf} ${limitOn < day ? 'was' : 'is'} ${dayInWords(limitOn, day)}.`;
  const notice = shortNotice ? ' It is urgent and comes before the notice that the site wants: ask the client first.' : '';
  return [
    `${limit} ${inWords(dayLaterMinutes, rates)} ${trip}${notice}`,
    ...(waterOffMinutes === 0 ? [] : [`The water is off for ${waterOffMinutes} minutes.`]),
    ...(after.length === 0 ? [] : [`Comes after ${after.join(' and ')}.`]),
    ...vansInWords(vans),
    ...overtimeBefore.map((had) => `${overtimeInWords(had)}.`),
  ].join(' ');
}

function vansInWords(vans: readonly VanOfLine[]): string[] {
  const namesOf = (goes: boolean) => vans.flatMap((van) => (van.goes === goes ? [van.name] : [])).join(' and of ');
  const [own, others] = [namesOf(true), namesOf(false)];
  return [
    ...(own === '' ? [] : [`Parts are in the van of ${own}.`]),
    ...(others === '' ? [] : [`Parts are in the van of ${others}: have them handed over before.`]),
  ];
}

/**
 * What somebody has had of the overtime of a week before a plan begins.
 *
 * @example overtimeInWords({ name: 'Ada', minutes: 150, estimated: true }) // => "Ada has 150 minutes of overtime in that week before the plan begins (estimated)"
 */
export const overtimeInWords = ({ name, minutes, estimated }: OvertimeOfLine): string =>
  `${name} has ${Math.round(minutes)} minutes of overtime in that week before the plan begins${estimated ? ' (estimated)' : ''}`;

function inWords(dayLaterMinutes: number | null, rates: PlanRates | null): string {
  if (dayLaterMinutes === null) return 'A day later is not within the plan.';
  const minutes = Math.round(Math.abs(dayLaterMinutes));
  if (minutes === 0) return 'A day later costs nothing.';
  const worth = rates === null ? `${minutes} minutes of work` : `${rates.currency} ${Math.round(moneyFor(rates, minutes) ?? 0)}`;
  return dayLaterMinutes > 0 ? `A day later counts as ${worth}.` : `A day later would save ${worth}.`;
}
