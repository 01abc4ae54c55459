import { toWorking } from '../breaks/working-clock.js';
import type { Ferry, Span } from '../plan-input.js';

const ROUNDING = 1e-6;

/** A ferry on the clock of somebody who takes a break, without the boats in the midst of it, which have no time on that clock. */
export function ferryAtWork({ landings, departures }: Ferry, pause: Span | null): Ferry {
  const atWork = (times: readonly number[]) =>
    times.filter((time) => pause === null || time <= pause.from || time >= pause.until).map((time) => toWorking(pause, time));
  return { landings: atWork(landings), departures: atWork(departures) };
}

/**
 * The first boat from a time on; infinite: none goes any more. Without a ferry at once.
 *
 * @example nextBoat([510, 780], 520) // => 780
 * @example nextBoat(undefined, 520) // => 520
 */
export const nextBoat = (times: readonly number[] | undefined, time: number): number =>
  times === undefined ? time : Math.min(Number.POSITIVE_INFINITY, ...times.filter((each) => each >= time - ROUNDING));

/**
 * The last boat until a time; minus infinite: none went before. Without a ferry at once.
 *
 * @example lastBoat([510, 780], 600) // => 510
 */
export const lastBoat = (times: readonly number[] | undefined, time: number): number =>
  times === undefined ? time : Math.max(Number.NEGATIVE_INFINITY, ...times.filter((each) => each <= time + ROUNDING));
