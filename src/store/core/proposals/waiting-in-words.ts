import { type Day, dayPlus } from '../../../shared/day.js';
import { day, number } from '../../../shared/format.js';
import type { IfItWaits } from './reorder-line.js';

/** Less than this on average is not worth a word. */
const NOTHING_MISSING = 0.05;
const percent = (share: number) => `${number(share * 100)} %`;

/**
 * What waiting does, in one sentence; empty where it makes no difference to the percent and next to nothing would be missing.
 *
 * @example waitingInWords({ days: 7, enoughNow: 0.98, enoughLater: 0.91, missingLater: 0.2 }, '2026-11-25') // => "Ordered on 2 Dec 2026 instead of today, what is there lasts until the delivery with 91 % instead of 98 %; 0.2 would be missing on average."
 * @example waitingInWords({ days: 7, enoughNow: 0.004, enoughLater: 0, missingLater: 3 }, '2026-11-25') // => "Ordered on 2 Dec 2026 instead of today, 3 would be missing on average."
 * @example waitingInWords({ days: 7, enoughNow: 1, enoughLater: 0.999, missingLater: 0 }, '2026-11-25') // => ""
 */
export function waitingInWords({ days, enoughNow, enoughLater, missingLater }: IfItWaits, today: Day): string {
  const lasts =
    percent(enoughLater) === percent(enoughNow) ? [] : [`what is there lasts until the delivery with ${percent(enoughLater)} instead of ${percent(enoughNow)}`];
  const missing = missingLater < NOTHING_MISSING ? [] : [`${Number(missingLater.toPrecision(2))} would be missing on average`];
  const told = [...lasts, ...missing];
  return told.length === 0 ? '' : `Ordered on ${day(dayPlus(today, days))} instead of today, ${told.join('; ')}.`;
}
