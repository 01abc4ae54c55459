import type { JobState } from '../../shared/work.js';
import { words } from '../words.js';

/** The state of a job in words; under it what it waits for, or why it was dropped. */
export function JobStateWord({ state, note = '' }: { state: JobState; note?: string }) {
  return (
    <span className={`state state-${state.replace(' ', '-')}`}>
      {words.jobs.states[state]}
      {note !== '' && <small>{note}</small>}
    </span>
  );
}
