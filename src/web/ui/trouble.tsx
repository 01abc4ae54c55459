import { useEffect, useId, useRef } from 'react';
import { words } from '../words.js';

export interface FieldTrouble {
  /** Of the control that needs a change; unset: no control of this form */
  readonly id?: string;
  readonly message: string;
}

/** Above a form that was refused: takes the focus on each attempt, and leads to every field. */
export function Trouble({ troubles, attempt, title }: { troubles: readonly FieldTrouble[]; attempt: number; title?: string }) {
  const headId = useId();
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (attempt > 0) box.current?.focus();
  }, [attempt]);
  if (troubles.length === 0 && title === undefined) return null;
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset would hold controls; this holds links to them
    <div className="trouble" ref={box} tabIndex={-1} role="group" aria-labelledby={headId}>
      <h2 id={headId}>{title ?? words.forms.needChange(troubles.length)}</h2>
      <ul>
        {troubles.map(({ id, message }) => (
          <li key={`${id} ${message}`}>
            {id === undefined ? (
              message
            ) : (
              <a
                href={`#${id}`}
                onClick={(event) => {
                  event.preventDefault();
                  document.getElementById(id)?.focus();
                }}
              >
                {message}
              </a>
            )}
          </li>
        ))}
      </ul>
    </div>
  );
}
