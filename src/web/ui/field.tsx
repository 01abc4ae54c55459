import type { ReactNode } from 'react';
import { words } from '../words.js';

/** What a control needs to belong to its label, hint and problem. */
export interface ControlProps {
  readonly id: string;
  readonly 'aria-describedby': string | undefined;
  readonly 'aria-invalid': true | undefined;
}

interface FieldProps {
  readonly id: string;
  readonly label: ReactNode;
  readonly hint?: ReactNode;
  readonly problem?: string | undefined;
  readonly children: (control: ControlProps) => ReactNode;
}

/** A label, a hint, what needs a change, and the control, in this order for everybody. */
export function Field({ id, label, hint, problem, children }: FieldProps) {
  const described = [hint === undefined ? '' : `${id}-hint`, problem === undefined ? '' : `${id}-problem`].filter(Boolean).join(' ');
  return (
    <div className={problem === undefined ? 'field' : 'field wrong'}>
      <label htmlFor={id}>{label}</label>
      {hint !== undefined && (
        <p className="hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
      {problem !== undefined && (
        <p className="fix" id={`${id}-problem`}>
          <span className="unseen">{words.forms.problem} </span>
          {problem}
        </p>
      )}
      {children({ id, 'aria-describedby': described || undefined, 'aria-invalid': problem === undefined ? undefined : true })}
    </div>
  );
}
