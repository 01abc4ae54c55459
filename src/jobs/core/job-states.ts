import { movesOf, type WorkRole } from '../../shared/job-moves.js';
import type { JobState } from '../../shared/work.js';

export type MoveCheck = { readonly kind: 'allowed' } | { readonly kind: 'refused'; readonly field: 'to' | 'note'; readonly message: string };

/**
 * Whether somebody may move a job on by hand, and what must be said with it; a refusal names the moves that this person has.
 *
 * @example checkMove('open', 'under way', 'technician', '') // => { "kind": "allowed" }
 * @example checkMove('open', 'waiting', 'technician', '').message // => "say what it waits for"
 * @example checkMove('under way', 'finished', 'technician', '').message // => "a job is finished by its report: send the job sheet. From under way you may move it to waiting"
 */
export function checkMove(from: JobState, to: JobState, role: WorkRole, note: string): MoveCheck {
  const own = movesOf(from, role);
  const move = own.find((each) => each.to === to);
  if (move === undefined) {
    const named = own.map((each) => each.to).join(', ');
    const may = own.length === 0 ? `From ${from} you can move it nowhere` : `From ${from} you may move it to ${named}`;
    const why = to === 'finished' && from !== 'finished' ? 'a job is finished by its report: send the job sheet. ' : '';
    return { kind: 'refused', field: 'to', message: `${why}${may}` };
  }
  if (move.saying !== null && note.trim() === '') return { kind: 'refused', field: 'note', message: `say ${move.saying}` };
  return { kind: 'allowed' };
}
