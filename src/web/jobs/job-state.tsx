import type { JobState } from '../../shared/work.js';
import { jobWords } from '../words/jobs.js';

/** The state of a job in words; under it what it waits for, or why it was dropped. */
export function JobStateWord({ state, note = '' }: { state: JobState; note?: string }) {
  return (
    <span className={`state state-${state.replace(' ', '-')}`}>
      {jobWords.states[state]}
      {note !== '' && <small>{note}</small>}
    </span>
  );
}
