import type { Schemas } from '../api/client.js';
import { moment } from '../format.js';
import { visitWords } from '../words/visits.js';

type Stated = Pick<Schemas['VisitView'], 'state' | 'promisedAt' | 'timeZone'>;

/** The state of a visit in words, and whether the client was told. */
export function VisitStateWord({ visit: { state, promisedAt, timeZone } }: { visit: Stated }) {
  return (
    <span className={`state state-${state.replace(' ', '-')}`}>
      {visitWords.states[state]}
      {promisedAt !== null && <small>{visitWords.told(moment(promisedAt, timeZone))}</small>}
    </span>
  );
}
