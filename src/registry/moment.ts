import { faultIn } from '../app/index.js';

/** The clocks of two computers differ a little. */
const CLOCK_TOLERANCE_MS = 5 * 60_000;

/** When something was done: now, where nobody says; never later than now. */
export function momentOf(at: string | undefined, now: Date): Date {
  if (at === undefined) return now;
  const moment = new Date(at);
  if (moment.getTime() > now.getTime() + CLOCK_TOLERANCE_MS) throw faultIn('at', 'must not be in the future');
  return moment;
}
