import type { Span } from '../plan-input.js';

/**
 * A day without its break: the clock stands still from the beginning of the break to its end, and ways and work that the break interrupts go on afterwards. On this clock a day
 * with a break is a shorter day without one.
 *
 * @param pause from when to when, in minutes of the day; null: no break
 * @example toWorking({ from: 720, until: 750 }, 700) // => 700
 * @example toWorking({ from: 720, until: 750 }, 740) // => 720
 * @example toWorking({ from: 720, until: 750 }, 800) // => 770
 */
export function toWorking(pause: Span | null, clock: number): number {
  return pause === null || clock <= pause.from ? clock : Math.max(pause.from, clock - (pause.until - pause.from));
}

/**
 * When something begins by the clock of the day: what begins with the break begins after it.
 *
 * @example beginByClock({ from: 720, until: 750 }, 719) // => 719
 * @example beginByClock({ from: 720, until: 750 }, 720) // => 750
 */
export const beginByClock = (pause: Span | null, working: number): number =>
  pause === null || working < pause.from ? working : working + (pause.until - pause.from);

/**
 * When something ends by the clock of the day: what ends with the break ends before it.
 *
 * @example endByClock({ from: 720, until: 750 }, 720) // => 720
 * @example endByClock({ from: 720, until: 750 }, 721) // => 751
 */
export const endByClock = (pause: Span | null, working: number): number =>
  pause === null || working <= pause.from ? working : working + (pause.until - pause.from);
