import { useId } from 'react';
import { words } from '../words.js';

export interface Option {
  readonly value: string;
  readonly label: string;
}

interface ChoiceProps {
  readonly label: string;
  readonly value: string | undefined;
  readonly options: readonly Option[];
  readonly onChoose: (value: string) => void;
  /** What stands for no choice */
  readonly all?: string;
}

/** One of several, as a filter above a list. */
export function Choice({ label, value, options, onChoose, all = words.all }: ChoiceProps) {
  const id = useId();
  return (
    <span className="pick">
      <label htmlFor={id}>{label}</label>
      <select id={id} value={value ?? ''} onChange={(event) => onChoose(event.target.value)}>
        <option value="">{all}</option>
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.label}
          </option>
        ))}
      </select>
    </span>
  );
}
