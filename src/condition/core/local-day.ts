import { TZDate, tzOffset } from '@date-fns/tz';
import { addDays } from 'date-fns/addDays';
import { format } from 'date-fns/format';
import { startOfDay } from 'date-fns/startOfDay';

/** A calendar day at a site: its date there and the instants between which it lies, in ms since 1970; the end belongs to the next day. */
export interface LocalDay {
  readonly day: string;
  readonly fromMs: number;
  readonly toMs: number;
}

/**
 * Finds the calendar day of an instant in a time zone (IANA name). A day has 23, 24 or 25 hours, or another odd length where the zone's clock changes.
 *
 * To ask the zone for the date of every row of a long record takes longer than all the rest of the work. The edges of a day are therefore computed once
 * and the day is given again for as long as the instants fall into it; rows in order of time ask the zone once a day.
 *
 * Source: IANA time zone database, as the runtime carries it.
 *
 * @example localDays('Asia/Kolkata')(new Date('2025-01-01T20:00:00Z').getTime()).day // => "2025-01-02"
 */
export function localDays(timeZone: string): (ms: number) => LocalDay {
  let known: LocalDay | null = null;
  let edge: Edge | null = null;
  return (ms) => {
    if (known !== null && ms >= known.fromMs && ms < known.toMs) return known;
    const follows = edge !== null && ms >= edge.ms && ms < edge.ms + DAY_MS;
    const plain = plainDay(timeZone, ms, follows ? edge : null);
    edge = plain === null ? null : { ms: plain.day.toMs, offsetMs: plain.offsetMs };
    known = plain?.day ?? oddDay(timeZone, ms);
    return known;
  };
}

const MINUTE_MS = 60_000;
const DAY_MS = 86_400_000;

/** Where the day before ended, with the zone's offset there: the next day begins with it and need not ask. */
interface Edge {
  readonly ms: number;
  readonly offsetMs: number;
}

/** A day of 24 hours: all but two of a year. `null` where the clock changes from the beginning of the day to its end. */
function plainDay(timeZone: string, ms: number, start: Edge | null): { readonly day: LocalDay; readonly offsetMs: number } | null {
  const offsetMs = start?.offsetMs ?? offsetAt(timeZone, ms);
  const startMs = Math.floor((ms + offsetMs) / DAY_MS) * DAY_MS;
  const [fromMs, toMs] = [startMs - offsetMs, startMs - offsetMs + DAY_MS];
  if (!Number.isFinite(startMs)) return null;
  if ((start === null && offsetAt(timeZone, fromMs) !== offsetMs) || offsetAt(timeZone, toMs) !== offsetMs) return null;
  return { day: { day: new Date(startMs).toISOString().slice(0, 10), fromMs, toMs }, offsetMs };
}

const offsetAt = (timeZone: string, ms: number): number => tzOffset(timeZone, new Date(ms)) * MINUTE_MS;

function oddDay(timeZone: string, ms: number): LocalDay {
  const from = startOfDay(new TZDate(ms, timeZone));
  return { day: format(from, 'yyyy-MM-dd'), fromMs: from.getTime(), toMs: startOfDay(addDays(from, 1)).getTime() };
}
