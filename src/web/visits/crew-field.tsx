import { visitWords } from '../words/visits.js';
import type { CrewMember } from './use-crew.js';

interface CrewFieldProps {
  /** Of the first box, which a problem leads to */
  readonly id: string;
  readonly problem: string | undefined;
  readonly crew: readonly CrewMember[];
  readonly chosen: readonly string[];
  readonly lastThere?: readonly string[];
  readonly onChange: (ids: readonly string[]) => void;
}

/** Who goes: each with what else they have to do that day. */
export function CrewField({ id, problem, crew, chosen, lastThere = [], onChange }: CrewFieldProps) {
  const toggle = (personId: string) => onChange(chosen.includes(personId) ? chosen.filter((each) => each !== personId) : [...chosen, personId]);
  return (
    <fieldset className="group crew" aria-describedby={problem === undefined ? undefined : `${id}-problem`}>
      <legend>{visitWords.who}</legend>
      {problem !== undefined && (
        <p className="fix" id={`${id}-problem`}>
          {problem}
        </p>
      )}
      {crew.length === 0 && <p>{visitWords.noPeople}</p>}
      {crew.map((member, at) => (
        <label key={member.id} className="tick">
          <input id={at === 0 ? id : undefined} type="checkbox" checked={chosen.includes(member.id)} onChange={() => toggle(member.id)} />
          <span>
            {member.name}
            <small>{[member.busy, ...(lastThere.includes(member.id) ? [visitWords.whoLast] : [])].join('; ')}</small>
          </span>
        </label>
      ))}
    </fieldset>
  );
}
