import type { PlanPrices } from '../planner/plan-input.js';

/** What things cost the company, all in one currency. */
export interface PlanRates {
  /** ISO 4217 */
  readonly currency: string;
  /** Above zero: everything else is weighed against it */
  readonly workHour: number;
  readonly travelHour: number;
  /** On top of the hour */
  readonly overtimeHour: number;
  readonly kilometre: number;
  readonly nightAway: number;
}

/** Common practice where no rates are given: a minute of overtime costs as much again, a night two hours, and ways their time alone. */
const WITHOUT_RATES = { minute: 1, travelMinute: 0, workMinute: 0, overtimeMinute: 1, km: 0, night: 120 };
/** Of putting work elsewhere than it was published, in minutes of work. */
const CHANGE = 40;
/** Of sending somebody to urgent work while somebody on call could go, in minutes of work. */
const NOT_ON_CALL = 60;
const HOUR = 60;

/**
 * What the search weighs by, in minutes of work, so that plans are searched alike in every currency: a rate counts as the minutes of work that it pays for. A minute counts as the
 * cheaper one of work and travel, the dearer one comes on top; waiting counts as the cheaper one. Without rates a minute is a minute.
 *
 * @example pricesOf({ currency: 'EUR', workHour: 60, travelHour: 30, overtimeHour: 15, kilometre: 0.5, nightAway: 90 }) // => { "minute": 0.5, "travelMinute": 0, "workMinute": 0.5, "overtimeMinute": 0.25, "km": 0.5, "night": 90, "change": 40, "notOnCall": 60 }
 * @example pricesOf(null) // => { "minute": 1, "travelMinute": 0, "workMinute": 0, "overtimeMinute": 1, "km": 0, "night": 120, "change": 40, "notOnCall": 60 }
 */
export function pricesOf(rates: PlanRates | null): PlanPrices & { readonly night: number } {
  if (rates === null) return { ...WITHOUT_RATES, change: CHANGE, notOnCall: NOT_ON_CALL };
  const travel = rates.travelHour / rates.workHour;
  const minute = Math.min(1, travel);
  return {
    minute,
    travelMinute: travel - minute,
    workMinute: 1 - minute,
    overtimeMinute: rates.overtimeHour / rates.workHour,
    km: minutesFor(rates, rates.kilometre),
    night: minutesFor(rates, rates.nightAway),
    change: CHANGE,
    notOnCall: NOT_ON_CALL,
  };
}

/** Minutes of work that cost as much. */
export const minutesFor = ({ workHour }: PlanRates, money: number): number => (money * HOUR) / workHour;

/** What minutes of work cost, to the cent; null: no rates are given. */
export const moneyFor = (rates: PlanRates | null, minutes: number): number | null =>
  rates === null ? null : Math.round((minutes * rates.workHour * 100) / HOUR) / 100;
