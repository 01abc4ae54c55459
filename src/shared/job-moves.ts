import type { JobState } from './work.js';

export type WorkRole = 'manager' | 'storekeeper' | 'technician';

/** One way in which a job can be moved on by hand. */
export interface JobMove {
  readonly to: JobState;
  readonly by: readonly WorkRole[];
  /** What must be said with it */
  readonly saying: string | null;
}

const MOVES: Record<JobState, readonly JobMove[]> = {
  open: [
    { to: 'waiting', by: ['manager', 'storekeeper', 'technician'], saying: 'what it waits for' },
    { to: 'under way', by: ['manager', 'technician'], saying: null },
    { to: 'dropped', by: ['manager'], saying: 'why it is dropped' },
  ],
  waiting: [
    { to: 'open', by: ['manager', 'storekeeper', 'technician'], saying: null },
    { to: 'under way', by: ['manager', 'technician'], saying: null },
    { to: 'dropped', by: ['manager'], saying: 'why it is dropped' },
  ],
  'under way': [
    { to: 'waiting', by: ['manager', 'technician'], saying: 'what it waits for' },
    { to: 'open', by: ['manager'], saying: 'why it is put back' },
    { to: 'dropped', by: ['manager'], saying: 'why it is dropped' },
  ],
  finished: [],
  dropped: [{ to: 'open', by: ['manager'], saying: 'why it is taken up again' }],
};

/**
 * How somebody may move a job on by hand. A job is finished by the report of whoever did it, never by hand, so that what was done is on record.
 *
 * @example movesOf('open', 'technician').map(({ to }) => to) // => ["waiting", "under way"]
 * @example movesOf('finished', 'manager') // => []
 */
export const movesOf = (from: JobState, role: WorkRole): JobMove[] => MOVES[from].filter(({ by }) => by.includes(role));
