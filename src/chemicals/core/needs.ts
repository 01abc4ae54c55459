import type { Day } from '../../shared/day.js';
import { expectedUse, type Recipe, type UseDay } from './expected-use.js';

/** Somebody who draws from a tank: a skid with its recipe and what it did, or a user outside the skids with an average day. */
export interface TankConsumer {
  readonly name: string;
  readonly recipe: Recipe;
  /** What it filtered and cleaned, as far as it is known */
  readonly days: readonly UseDay[];
  readonly litresPerDay: number | null;
  /** Scatter of that between days */
  readonly sdPerDay: number | null;
}

export interface ConsumerNeed {
  readonly name: string;
  /** On an average day of those given */
  readonly litresPerDay: number;
}

/** What every consumer of a tank asks for, by day. */
export interface TankNeeds {
  readonly byDay: ReadonlyMap<Day, number>;
  readonly consumers: readonly ConsumerNeed[];
  /** Scatter of the users outside the skids, whose days are not known one by one */
  readonly outsideSdL: number;
}

/**
 * The need of a tank as the sum over everyone who draws from it, L by day: dose x filtrate / strength of the day and the litres of each clean for skids, an average day for users
 * outside them. A day of which nothing is known of any skid is left out where the tank has skids. `null` where a dose is set and a strength is not known.
 *
 * Source: mass balance, as `expectedUse`.
 */
export function needsOf(consumers: readonly TankConsumer[], days: readonly Day[], strengthGL: (day: Day) => number | null): TankNeeds | null {
  const byDay = new Map<Day, number>();
  const told: ConsumerNeed[] = [];
  const known = new Set(consumers.flatMap((consumer) => consumer.days.map(({ day }) => day)));
  const counted = consumers.some(({ days: own }) => own.length > 0) ? days.filter((day) => known.has(day)) : days;
  const wanted = new Set(counted);
  for (const { name, recipe, days: all, litresPerDay } of consumers) {
    const own = all.filter(({ day }) => wanted.has(day));
    const asked = expectedUse(own, recipe, strengthGL);
    if (asked === null) return null;
    for (const [at, { day }] of own.entries()) byDay.set(day, (byDay.get(day) ?? 0) + (asked.daily[at] ?? 0));
    for (const day of counted) byDay.set(day, (byDay.get(day) ?? 0) + (litresPerDay ?? 0));
    told.push({ name, litresPerDay: counted.length === 0 ? (litresPerDay ?? 0) : asked.litres / counted.length + (litresPerDay ?? 0) });
  }
  return { byDay, consumers: told, outsideSdL: Math.hypot(...consumers.map(({ sdPerDay }) => sdPerDay ?? 0)) };
}

/** A day as far as it lies in a span: its date, and how much of it. */
export interface DayShare {
  readonly day: Day;
  readonly share: number;
}

/** More days than this share without a word from the plant, and nobody knows what was used. */
const SILENT_SHARE = 0.2;

/**
 * What a tank should have given over a span of days and parts of days, L. `null` where more than a fifth of the span is not known.
 *
 * @example neededOver(new Map([['2025-11-01', 8], ['2025-11-02', 8]]), [{ day: '2025-11-01', share: 0.5 }, { day: '2025-11-02', share: 1 }]) // => 12
 */
export function neededOver(byDay: ReadonlyMap<Day, number>, span: readonly DayShare[]): number | null {
  let [litres, silent, all] = [0, 0, 0];
  for (const { day, share } of span) {
    const need = byDay.get(day);
    all += share;
    if (need === undefined) silent += share;
    else litres += need * share;
  }
  return silent > SILENT_SHARE * all ? null : litres;
}
