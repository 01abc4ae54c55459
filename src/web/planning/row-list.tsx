import type { ReactNode } from 'react';
import { planningWords } from '../words/planning.js';

interface RowListProps {
  readonly legend: string;
  /** What one row is called */
  readonly one: string;
  readonly none: string;
  readonly add: string;
  readonly count: number;
  /** What the service says of the list as a whole */
  readonly problem?: string | undefined;
  readonly onAdd: () => void;
  readonly onLeaveOut: (at: number) => void;
  readonly children: (at: number) => ReactNode;
}

/** Rows of a form that can be added and left out. */
export function RowList({ legend, one, none, add, count, onAdd, onLeaveOut, children }: RowListProps) {
  return (
    <section className="block" aria-label={legend}>
      <h2>{legend}</h2>
      {count === 0 && <p className="aside">{none}</p>}
      {Array.from({ length: count }, (_, at) => (
        <fieldset key={at} className="group form-row">
          <legend>{planningWords.row(one, at + 1)}</legend>
          <div className="fields">
            {children(at)}
            <p className="field">
              <button type="button" onClick={() => onLeaveOut(at)}>
                {planningWords.leaveOut(planningWords.row(one, at + 1))}
              </button>
            </p>
          </div>
        </fieldset>
      ))}
      <p>
        <button type="button" onClick={onAdd}>
          {add}
        </button>
      </p>
    </section>
  );
}
