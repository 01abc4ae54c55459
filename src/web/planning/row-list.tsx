import type { ReactNode } from 'react';
import { planningWords } from '../words/planning.js';

interface RowListProps {
  /** Of its heading; a list that stands within a part of the page has a lower one */
  readonly level?: 'h2' | 'h3';
  readonly legend: string;
  /** What one row is called */
  readonly one: string;
  readonly none: string;
  readonly add: string;
  readonly count: number;
  readonly onAdd: () => void;
  readonly onLeaveOut: (at: number) => void;
  readonly children: (at: number) => ReactNode;
}

/** Rows of a form that can be added and left out. */
export function RowList({ level: Heading = 'h2', legend, one, none, add, count, onAdd, onLeaveOut, children }: RowListProps) {
  return (
    <section className={Heading === 'h2' ? 'block' : 'rows'} aria-label={legend}>
      <Heading>{legend}</Heading>
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
