/** A reading of a counter, or its exchange for another one: the last value of the old (`null`: not known) and the first of the new. */
export type MeterEvent =
  | { readonly kind: 'reading'; readonly at: Date; readonly value: number }
  | { readonly kind: 'exchange'; readonly at: Date; readonly oldFinal: number | null; readonly newInitial: number };

/** What is known of a counter. */
export interface MeterKind {
  /** The value at which the display begins again at 0; `null`: it never does */
  readonly modulus: number | null;
  /** The most that it can count in an hour of the clock: 1 for run hours; `null` where nobody can say */
  readonly mostPerHour: number | null;
  /** Smallest step of the display, by which an honest difference may exceed the clock; 0 by default */
  readonly step?: number;
}

type MeterRejection = 'future time' | 'duplicate time' | 'lower reading without exchange' | 'more than the clock allows';

export interface MeterLife {
  /** Counted since the first event, after each accepted event, in order of time */
  readonly points: readonly { readonly at: Date; readonly life: number }[];
  readonly rejected: readonly { readonly event: MeterEvent; readonly reason: MeterRejection }[];
}

const HOUR_MS = 3_600_000;

/**
 * Life of a machine by its counter (run hours, starts, strokes) through rollover and exchange of the counter: the sum of the increments between readings.
 *
 * A lower value is a rollover when the value plus the modulus is no more than the clock allows since the reading before; without a limit by the clock, when
 * less than half of the range was counted. Else it is rejected: a lower reading without exchange. A rejected reading changes nothing, and the next is
 * compared with the last accepted one. An exchange always holds, since the counter in place is another one; when its old final value is not known or not
 * possible, the time since the last reading counts nothing, and an impossible value is listed as rejected. Readings after `now` and a second reading of one
 * moment are rejected. Any order of events; at one moment a reading goes before an exchange.
 *
 * Source: rules of meter-based upkeep (common practice).
 *
 * @example lifeByMeter([{ kind: 'reading', at: new Date('2025-01-11T00:00:00Z'), value: 9990 }, { kind: 'reading', at: new Date('2025-01-21T00:00:00Z'), value: 170 }], { modulus: 10000, mostPerHour: 1 }, new Date('2025-02-01T00:00:00Z')).points[1].life // => 180
 */
export function lifeByMeter(events: readonly MeterEvent[], meter: MeterKind, now: Date): MeterLife {
  const points: { at: Date; life: number }[] = [];
  const rejected: { event: MeterEvent; reason: MeterRejection }[] = [];
  let last = null as { atMs: number; value: number; life: number; kind: MeterEvent['kind'] } | null;
  for (const event of inOrder(events)) {
    const atMs = event.at.getTime();
    const isReading = event.kind === 'reading';
    const read = isReading ? event.value : event.oldFinal;
    let gain = 0;
    let reason: MeterRejection | null = null;
    if (event.at > now) reason = 'future time';
    else if (last !== null && isReading && last.kind === 'reading' && last.atMs === atMs) reason = 'duplicate time';
    else if (last !== null && read !== null) {
      const counted = increment(last.value, read, (atMs - last.atMs) / HOUR_MS, meter);
      if (typeof counted === 'number') gain = counted;
      else reason = counted;
    }
    if (reason !== null) rejected.push({ event, reason });
    if (reason !== null && (isReading || reason === 'future time')) continue;
    last = { atMs, value: isReading ? event.value : event.newInitial, life: (last?.life ?? 0) + gain, kind: event.kind };
    points.push({ at: event.at, life: last.life });
  }
  return { points, rejected };
}

function increment(from: number, to: number, hours: number, { modulus, mostPerHour, step = 0 }: MeterKind): number | MeterRejection {
  const most = mostPerHour === null ? null : mostPerHour * hours + step;
  if (to >= from) return most === null || to - from <= most ? to - from : 'more than the clock allows';
  if (modulus === null) return 'lower reading without exchange';
  const rolled = to - from + modulus;
  return rolled <= (most ?? modulus / 2) ? rolled : 'lower reading without exchange';
}

function inOrder(events: readonly MeterEvent[]): MeterEvent[] {
  return [...events].sort((a, b) => a.at.getTime() - b.at.getTime() || Number(a.kind === 'exchange') - Number(b.kind === 'exchange'));
}
