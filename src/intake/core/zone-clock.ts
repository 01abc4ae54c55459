import { tzOffset } from '@date-fns/tz';

/** What a reading of a wall clock (milliseconds as if it ran in UTC) can mean. */
export type WallMeaning =
  | { readonly kind: 'once'; readonly atMs: number }
  /** In the hour that the end of summer time shows twice */
  | { readonly kind: 'twice'; readonly firstMs: number; readonly secondMs: number }
  /** In the hour that the start of summer time leaves out */
  | { readonly kind: 'never' };

export type ZoneClock = (wallMs: number) => WallMeaning;

const MINUTE_MS = 60_000;
const QUARTER_MS = 15 * MINUTE_MS;
const DAY_MS = 86_400_000;

/** Whether the text is a time zone of the IANA database, or UTC. */
export function isTimeZone(zone: string): boolean {
  return /^[A-Za-z][A-Za-z0-9_+\-/]*$/.test(zone) && !Number.isNaN(tzOffset(zone, new Date(0)));
}

/**
 * A clock of one zone that turns wall times into moments. It asks the zone's rules once a day, and once a quarter of an hour on the days on which the
 * offset changes (transitions lie on quarters of an hour: IANA database, since 1973), so that a log of a million rows costs no more than its days.
 */
export function zoneClock(zone: string): ZoneClock {
  const dayOffsets = new Map<number, number>();
  const quarterMeanings = new Map<number, readonly number[]>();

  const offsetAtDay = (day: number): number => {
    const known = dayOffsets.get(day);
    if (known !== undefined) return known;
    const offset = tzOffset(zone, new Date(day * DAY_MS)) * MINUTE_MS;
    dayOffsets.set(day, offset);
    return offset;
  };

  // Offsets that hold at a moment which the clock shows as this quarter; the earlier moment has the larger offset.
  const offsetsOfQuarter = (quarter: number, before: number, after: number): readonly number[] => {
    const wallMs = quarter * QUARTER_MS;
    let offsets = quarterMeanings.get(quarter);
    if (offsets === undefined) {
      offsets = [before, after].filter((offset) => tzOffset(zone, new Date(wallMs - offset)) * MINUTE_MS === offset).sort((a, b) => b - a);
      quarterMeanings.set(quarter, offsets);
    }
    return offsets;
  };

  return (wallMs) => {
    // No zone is more than a day away from UTC: equal offsets on both sides hold in between.
    const day = Math.floor(wallMs / DAY_MS);
    const before = offsetAtDay(day - 1);
    const after = offsetAtDay(day + 2);
    if (before === after) return { kind: 'once', atMs: wallMs - before };
    const [larger, smaller] = offsetsOfQuarter(Math.floor(wallMs / QUARTER_MS), before, after);
    if (larger === undefined) return { kind: 'never' };
    return smaller === undefined ? { kind: 'once', atMs: wallMs - larger } : { kind: 'twice', firstMs: wallMs - larger, secondMs: wallMs - smaller };
  };
}
