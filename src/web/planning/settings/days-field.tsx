import { planningWords } from '../../words/planning.js';
import { words } from '../../words.js';

interface DaysFieldProps {
  /** Of the first box, which a problem leads to */
  readonly id: string;
  readonly label: string;
  readonly problem: string | undefined;
  /** The days as digits, 1 Monday to 7 Sunday: "12345" */
  readonly value: string;
  readonly onChange: (value: string) => void;
}

/** Days of the week, each with a box. */
export function DaysField({ id, label, problem, value, onChange }: DaysFieldProps) {
  const toggle = (digit: string) => onChange(value.includes(digit) ? value.replace(digit, '') : [...Array.from(value), digit].toSorted().join(''));
  return (
    <fieldset className={problem === undefined ? 'group days' : 'group days wrong'} aria-describedby={problem === undefined ? undefined : `${id}-problem`}>
      <legend>{label}</legend>
      {problem !== undefined && (
        <p className="fix" id={`${id}-problem`}>
          <span className="unseen">{words.forms.problem} </span>
          {problem}
        </p>
      )}
      {planningWords.weekdays.map((day, at) => {
        const digit = String(at + 1);
        return (
          <label key={day} className="tick">
            <input id={at === 0 ? id : undefined} type="checkbox" checked={value.includes(digit)} onChange={() => toggle(digit)} />
            <span>{day}</span>
          </label>
        );
      })}
    </fieldset>
  );
}
