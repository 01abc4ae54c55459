import type { Day } from '../../shared/day.js';

/** A task at a place and its day. */
export interface DatedTask {
  readonly positionId: string | null;
  readonly task: string;
  readonly bestOn: Day | null;
}

export interface DueChanges {
  readonly added: number;
  readonly gone: number;
  readonly earlier: number;
  readonly later: number;
  readonly same: number;
}

/**
 * How many dues a change of rules adds, takes away, brings forward and puts off. A due without a day counts as later than every day.
 *
 * @example dueChanges([{ positionId: 'p', task: 'a', bestOn: '2025-01-01' }], [{ positionId: 'p', task: 'a', bestOn: '2025-02-01' }]) // => { "added": 0, "gone": 0, "earlier": 0, "later": 1, "same": 0 }
 */
export function dueChanges(before: readonly DatedTask[], after: readonly DatedTask[]): DueChanges {
  const keyOf = ({ positionId, task }: DatedTask) => `${positionId} ${task}`;
  const left = new Map(before.map((due) => [keyOf(due), due.bestOn ?? '9999']));
  const counts = { added: 0, gone: 0, earlier: 0, later: 0, same: 0 };
  for (const due of after) {
    const was = left.get(keyOf(due));
    left.delete(keyOf(due));
    const is = due.bestOn ?? '9999';
    if (was === undefined) counts.added += 1;
    else if (is === was) counts.same += 1;
    else if (is < was) counts.earlier += 1;
    else counts.later += 1;
  }
  return { ...counts, gone: left.size };
}
