import { nextDueAt } from './next-due-at.js';

/**
 * Where the latest completion of a task with a fixed plan had been due, on any counter: the plan is walked from the first completion on. Unknown before there are two.
 * The counter values at which the task was done come in order of time.
 *
 * Source: fixed base as in `nextDueAt`.
 *
 * @example plannedForLast([0, 540, 1020], 500) // => 1000
 */
export function plannedForLast(doneAt: readonly number[], interval: number): number | null {
  return doneAt.slice(0, -1).reduce<number | null>((plannedAt, done) => nextDueAt({ base: 'fixed', doneAt: done, plannedAt, interval }), null);
}
