import { type Day, dayInWords, daysBetween } from '../../shared/day.js';
import { figure } from '../../shared/figure.js';

export interface TankToRefill {
  readonly chemical: string;
  readonly capacityL: number;
  readonly heelL: number;
  /** Usable today */
  readonly volumeL: number;
  readonly dailyUseL: number;
  /** The day from which it may run short */
  readonly shortOn: Day;
  readonly today: Day;
  /** Longest that product of this kind keeps, in days; `null`: it keeps */
  readonly keepsDays: number | null;
  /** What is on its way */
  readonly awaited: { readonly volumeL: number; readonly expectedOn: Day } | null;
}

export interface Reminder {
  readonly litres: number;
  readonly byDay: Day;
  readonly words: string;
}

/** Whoever has to order is reminded this many days ahead. Common practice. */
const AHEAD_DAYS = 14;
/** A tank is not filled to the brim. Common practice. */
const FILLED_TO = 0.95;
const STEP_L = 5;

/**
 * What a client who fills a tank must see to: how much, and by what day. As much as the tank holds on the day from which it may run short, and of a product that loses
 * strength no more than is used while it keeps. `null` while there is time, and where what is on its way comes in time and is enough for as many days again.
 *
 * Source: common practice.
 */
export function reminderOf(tank: TankToRefill): Reminder | null {
  const { shortOn, today, awaited, dailyUseL } = tank;
  if (daysBetween(today, shortOn) > AHEAD_DAYS) return null;
  if (awaited !== null && awaited.expectedOn <= shortOn && awaited.volumeL >= dailyUseL * AHEAD_DAYS) return null;
  const leftL = Math.max(0, tank.volumeL - dailyUseL * Math.max(0, daysBetween(today, shortOn)));
  const roomL = Math.max(0, FILLED_TO * tank.capacityL - tank.heelL - leftL);
  const keptL = tank.keepsDays === null ? roomL : Math.min(roomL, dailyUseL * tank.keepsDays);
  const litres = Math.max(STEP_L, Math.floor(keptL / STEP_L) * STEP_L);
  const byDay = daysBetween(today, shortOn) < 0 ? today : shortOn;
  return { litres, byDay, words: wordsOf(tank, litres, byDay) };
}

function wordsOf({ chemical, today, awaited, shortOn }: TankToRefill, litres: number, byDay: Day): string {
  const ask = `Please have about ${figure(litres)} L of ${chemical} in the tank by ${dayInWords(byDay, today)}: from then on it may run short.`;
  if (awaited === null) return ask;
  const late = awaited.expectedOn > shortOn ? `comes on ${dayInWords(awaited.expectedOn, today)}, after that day` : 'will not last long';
  return `${ask} What is on its way (${figure(awaited.volumeL)} L) ${late}.`;
}
