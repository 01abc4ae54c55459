import { TECHNICIANS } from '../data/people.js';
import { RULES } from '../data/rules.js';
import type { ScenarioPosition, ScenarioRule, ScenarioServiceEntry } from '../types.js';
import type { Course } from './course.js';
import type { Count, MachineCount } from './meters.js';
import { DAY_MS, HOUR_MS, MINUTE_MS, type Period } from './period.js';
import { moduleName, positionKey } from './positions.js';
import { type Random, randomOf, seedOf } from './random.js';
import { repairTime } from './stops.js';

/** A position, or (key null) the skid as a whole. */
interface Place {
  readonly key: string | null;
  readonly skidKey: string;
  readonly kind: string;
  readonly strokesPerCycle: number | null;
}

interface Upkept {
  /** Null: shared equipment, which has no rules as a whole */
  readonly wholeSkidKey: string | null;
  readonly positions: readonly ScenarioPosition[];
  readonly counts: readonly MachineCount[];
  /** Displays of the hour meters, by position */
  readonly displays: ReadonlyMap<string, Count>;
  readonly cyclesPerDay: number;
  readonly commissionedMs: number;
  readonly siteKey: string;
  readonly period: Period;
  readonly offsetMs: number;
}

/** What the readings ask for (cleans, cartridges) is told by its own records, and what is done only while laid up is left out. */
const UPKEPT = RULES.filter(({ outlookLimit, whileLaidUp }) => outlookLimit === null && whileLaidUp !== 'only then');
/** Shares of the tasks that are overdue, and that fall due within the next two weeks. */
const OVERDUE = 0.04;
const DUE_SOON = 0.09;
const USE_DAYS = 60;
const REMARKS = ['', '', '', '', '', '', 'Runs a little loud, to be watched', 'Slight weeping, wiped off', 'Screws tightened', 'As good as new'] as const;

/** Work that the rules asked for, back through the record: most of it up to date, some soon due, a little of it late. */
export function upkeepEntries(plant: Upkept): ScenarioServiceEntry[] {
  const places = [
    ...(plant.wholeSkidKey === null ? [] : [{ key: null, skidKey: plant.wholeSkidKey, kind: 'skid', strokesPerCycle: null }]),
    ...plant.positions,
  ];
  return places.flatMap((place) => UPKEPT.filter(({ positionKind }) => positionKind === place.kind).flatMap((rule) => entriesOf(rule, place, plant)));
}

function entriesOf(rule: ScenarioRule, position: Place, plant: Upkept): ScenarioServiceEntry[] {
  const { period, offsetMs, commissionedMs } = plant;
  const random = randomOf(`${position.key ?? position.skidKey} ${rule.task}`);
  const everyDays = intervalDays(rule, position, plant);
  const entries: ScenarioServiceEntry[] = [];
  let doneMs = period.untilMs - everyDays * DAY_MS * spentOf(everyDays, random);
  while (doneMs > commissionedMs && (entries.length === 0 || doneMs > period.fromMs)) {
    const atMs = visitTime(doneMs, plant.siteKey, offsetMs) + Math.round(random.between(0, 360)) * MINUTE_MS;
    if (atMs < period.untilMs) entries.push(entryOf(position, rule.task, atMs, rule.expectedMinutes, plant.displays, random));
    doneMs -= everyDays * DAY_MS * random.between(0.85, 1.05);
  }
  return entries.reverse();
}

/** The interval of a rule in days, whichever of its limits comes first at the pace of the last two months. */
function intervalDays({ runHours, starts, cycles, days }: ScenarioRule, { key, strokesPerCycle }: Place, { counts, period, cyclesPerDay }: Upkept): number {
  const perDay = (kind: MachineCount['kind']): number => {
    const count = counts.find((one) => one.positionKey === key && one.kind === kind)?.count;
    return count === undefined ? 0 : (count(period.untilMs) - count(period.untilMs - USE_DAYS * DAY_MS)) / USE_DAYS;
  };
  const limits: [number | null, number][] = [
    [days, 1],
    [runHours, perDay('run hours')],
    [starts, perDay('starts')],
    [cycles, cyclesPerDay * (strokesPerCycle ?? 1)],
  ];
  return Math.min(...limits.flatMap(([limit, pace]) => (limit === null || pace <= 0 ? [] : [limit / pace])));
}

function spentOf(everyDays: number, random: Random): number {
  const kind = random.uniform();
  if (kind < OVERDUE) return random.between(1.05, 1.2);
  if (kind < OVERDUE + DUE_SOON) return 1 - random.between(4, 11) / everyDays;
  return random.between(0.05, Math.max(0.1, 1 - 24 / everyDays));
}

/** Each site has its day of the week, so that the work of one visit falls on one day. */
function visitTime(ms: number, siteKey: string, offsetMs: number): number {
  const week = 7 * DAY_MS;
  const visitDay = seedOf(`${siteKey} visits`) % 5;
  // Week 0 began on Thursday, 1 January 1970; four days later was a Monday.
  const mondayMs = Math.floor((ms + offsetMs - 4 * DAY_MS) / week) * week + 4 * DAY_MS - offsetMs;
  return mondayMs + visitDay * DAY_MS + 8.5 * HOUR_MS;
}

/** Work that nobody had planned, and the changes of cartridges. */
export function repairEntries({ plan, period, offsetMs, cartridgeRuns }: Course, displays: ReadonlyMap<string, Count>): ScenarioServiceEntry[] {
  const random = randomOf(`${plan.key} repairs`);
  const entry = (name: string, task: string, atMs: number, minutes: number) =>
    entryOf({ key: positionKey(plan.key, name), skidKey: plan.key }, task, atMs, minutes, displays, random);
  const { wear, isolatedModule } = plan;
  const module = moduleName(1);
  return [
    ...cartridgeRuns
      .filter(({ fromMs }) => fromMs > period.fromMs && fromMs < period.untilMs)
      .map(({ fromMs }) => entry('Cartridge housing', 'Change the cartridges', fromMs, 45)),
    ...(wear ? [entry('Feed pump: seal', 'Renew the mechanical seal', repairTime(wear.sealDaysAgo, period, offsetMs), 170)] : []),
    ...(isolatedModule
      ? [
          entry(module, `Isolate ${module.toLowerCase()}: broken fibres`, repairTime(isolatedModule.fromDaysAgo, period, offsetMs), 60),
          entry(module, `Replace ${module.toLowerCase()}`, repairTime(isolatedModule.toDaysAgo, period, offsetMs), 180),
        ]
      : []),
  ].filter(({ at }) => at.getTime() > period.fromMs);
}

function entryOf(
  { key, skidKey }: Pick<Place, 'key' | 'skidKey'>,
  task: string,
  atMs: number,
  expectedMinutes: number,
  displays: ReadonlyMap<string, Count>,
  random: Random,
): ScenarioServiceEntry {
  return {
    skidKey,
    positionKey: key,
    task,
    at: new Date(atMs),
    meterValue: key === null ? null : (displays.get(key)?.(atMs) ?? null),
    minutes: Math.max(5, Math.round((expectedMinutes * Math.exp(0.2 * random.normal())) / 5) * 5),
    by: random.pick(TECHNICIANS),
    note: random.pick(REMARKS),
  };
}
