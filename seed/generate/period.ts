export const MINUTE_MS = 60_000;
export const HOUR_MS = 3_600_000;
export const DAY_MS = 86_400_000;

/** The time that a record covers, ms since 1970. */
export interface Period {
  readonly fromMs: number;
  readonly untilMs: number;
}

export const hoursOf = ({ fromMs, untilMs }: Period): number => Math.ceil((untilMs - fromMs) / HOUR_MS);

export const dayText = (ms: number): string => new Date(ms).toISOString().slice(0, 10);

/** Clock of the plant at a longitude: whole hours from UTC, the same in summer and winter, as plant controllers keep it. */
export const plantOffsetMs = (longitude: number): number => Math.round(longitude / 15) * HOUR_MS;

/** Share of the year that has passed at a moment, 0 at the turn of the year. */
export const yearShare = (ms: number): number => (ms / (365.25 * DAY_MS)) % 1;

/** The first moment not before another that is at this hour of the plant's clock. */
export function nextAtHour(ms: number, hour: number, offsetMs: number): number {
  const midnight = Math.floor((ms + offsetMs) / DAY_MS) * DAY_MS - offsetMs;
  const at = midnight + hour * HOUR_MS;
  return at < ms ? at + DAY_MS : at;
}

/** The same, on a day from Monday to Friday. */
export function nextWorkday(ms: number, hour: number, offsetMs: number): number {
  let at = nextAtHour(ms, hour, offsetMs);
  while (weekday(at, offsetMs) % 6 === 0) at += DAY_MS;
  return at;
}

/** 0 is Sunday. 1 January 1970 was a Thursday. */
export function weekday(ms: number, offsetMs: number): number {
  return (Math.floor((ms + offsetMs) / DAY_MS) + 4) % 7;
}
