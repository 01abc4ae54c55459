import type { JobState, VisitState } from '../../shared/work.js';

/**
 * The state of a visit, from what became of its jobs: under way when the first is begun, finished when none is open any more. What was
 * called off stays so, and a visit whose jobs were all dropped before anybody went stays planned or promised.
 *
 * @example visitState('promised', ['under way', 'open']) // => "under way"
 * @example visitState('under way', ['finished', 'dropped']) // => "finished"
 * @example visitState('planned', ['dropped']) // => "planned"
 * @example visitState('finished', ['finished', 'open']) // => "under way"
 */
export function visitState(present: VisitState, jobs: readonly JobState[]): VisitState {
  if (present === 'called off') return present;
  const begun = present === 'under way' || present === 'finished' || jobs.some((state) => state === 'under way' || state === 'finished');
  if (!begun) return present;
  return jobs.every((state) => state === 'finished' || state === 'dropped') ? 'finished' : 'under way';
}
