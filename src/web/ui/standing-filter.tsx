import { useId } from 'react';
import { STANDING_LABELS, STANDINGS, type Standing } from '../../shared/standing.js';
import { words } from '../words.js';

export function StandingFilter({ value, onChoose }: { value: Standing | undefined; onChoose: (standing: Standing | undefined) => void }) {
  const id = useId();
  return (
    <span className="pick">
      <label htmlFor={id}>{words.standing}</label>
      <select id={id} value={value ?? ''} onChange={(event) => onChoose(STANDINGS.find((one) => one === event.target.value))}>
        <option value="">{words.all}</option>
        {STANDINGS.map((standing) => (
          <option key={standing} value={standing}>
            {STANDING_LABELS[standing]}
          </option>
        ))}
      </select>
    </span>
  );
}
