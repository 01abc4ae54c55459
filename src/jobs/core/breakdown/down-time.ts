/** When a skid stopped doing what is asked of it and when it did so again, as far as either is known. */
export interface DownTimes {
  readonly downFrom: Date | null;
  readonly restoredAt: Date | null;
}

const MINUTE_MS = 60_000;

/**
 * Minutes from the stop to the restoration; `null` where either is not known. Of the same two moments the time to restoration is made, which holds the wait as well
 * as the repair.
 *
 * @example downMinutes({ downFrom: new Date('2025-11-03T08:00:00Z'), restoredAt: new Date('2025-11-03T11:20:00Z') }) // => 200
 * @example downMinutes({ downFrom: null, restoredAt: new Date('2025-11-03T11:20:00Z') }) // => null
 */
export function downMinutes({ downFrom, restoredAt }: DownTimes): number | null {
  return downFrom === null || restoredAt === null ? null : (restoredAt.getTime() - downFrom.getTime()) / MINUTE_MS;
}

/**
 * Minutes as people say them: days and hours, or hours and minutes.
 *
 * @example minutesInWords(200) // => "3 h 20 min"
 * @example minutesInWords(3000) // => "2 d 2 h"
 * @example minutesInWords(0) // => "0 min"
 */
export function minutesInWords(minutes: number): string {
  const whole = Math.round(minutes);
  const parts =
    whole >= 24 * 60
      ? ([
          [Math.floor(whole / 1440), 'd'],
          [Math.floor((whole % 1440) / 60), 'h'],
        ] as const)
      : ([
          [Math.floor(whole / 60), 'h'],
          [whole % 60, 'min'],
        ] as const);
  const said = parts.filter(([count]) => count > 0).map(([count, unit]) => `${count} ${unit}`);
  return said.length === 0 ? '0 min' : said.join(' ');
}

/**
 * The down time in words: what is not known is said to be so, and never taken for none.
 *
 * @example downTimeInWords({ downFrom: null, restoredAt: null, ended: false, now: new Date('2025-11-03T08:00:00Z') }) // => "No time of a stop is known"
 */
export function downTimeInWords({ ended, now, ...times }: DownTimes & { readonly ended: boolean; readonly now: Date }): string {
  const { downFrom } = times;
  if (downFrom === null) return 'No time of a stop is known';
  const minutes = downMinutes(times);
  if (minutes !== null) return `Down for ${minutesInWords(minutes)}`;
  if (ended) return 'It stopped; when it was restored is not known';
  return `Down for ${minutesInWords((now.getTime() - downFrom.getTime()) / MINUTE_MS)} so far`;
}
