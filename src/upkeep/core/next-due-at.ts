/** How the next interval counts: `fixed` from the planned point, so that an overrun shortens it; `floating` from completion. */
export type IntervalBase = 'fixed' | 'floating';

export interface Completion {
  readonly base: IntervalBase;
  /** The counter or day number at which the task was done, and at which it had been due; unknown the first time */
  readonly doneAt: number;
  readonly plannedAt: number | null;
  readonly interval: number;
}

/** Done up to a tenth of the interval early, a fixed task keeps its plan; earlier, it begins a new one. Common practice (10 % rule). */
export const EARLY_SHARE = 0.1;

/**
 * The point at which a task is due next, on any counter: run hours, starts, cycles or days.
 *
 * Floating: done + interval. Fixed: planned + interval, so that an overrun is charged to the next interval; done a good deal too early it begins
 * anew from completion, and after an overrun of whole intervals the next point of the plan that still lies ahead counts.
 *
 * Source: US 14 CFR 91.409(b), hours in excess of the 100-hour inspection count in the next 100 hours (as quoted in secondary texts); the rest common practice.
 *
 * @example nextDueAt({ base: 'fixed', plannedAt: 1500, doneAt: 1540, interval: 500 }) // => 2000
 * @example nextDueAt({ base: 'floating', plannedAt: 1500, doneAt: 1540, interval: 500 }) // => 2040
 */
export function nextDueAt({ base, doneAt, plannedAt, interval }: Completion): number {
  if (base === 'floating' || plannedAt === null || doneAt < plannedAt - EARLY_SHARE * interval) return doneAt + interval;
  const missed = Math.max(0, Math.floor((doneAt - plannedAt) / interval));
  return plannedAt + (missed + 1) * interval;
}
