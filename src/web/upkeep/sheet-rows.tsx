import type { ReactNode } from 'react';
import { sheetWords as said } from '../words/task-sheets.js';
import { movedBy } from './sheet-draft.js';

interface RowsProps<Row extends { readonly key: string }> {
  readonly rows: readonly Row[];
  /** What a row is called by its number */
  readonly nameOf: (no: number) => string;
  readonly onChange: (rows: readonly Row[]) => void;
  /** The order means something */
  readonly ordered?: true;
  readonly children: (row: Row, at: number, change: (part: Partial<Row>) => void) => ReactNode;
}

/** Rows of a list in a form, each in a group of its own, with buttons to take it out and, where the order counts, to shift it. */
export function SheetRows<Row extends { readonly key: string }>({ rows, nameOf, onChange, ordered, children }: RowsProps<Row>) {
  return rows.map((row, at) => {
    const name = nameOf(at + 1);
    const about = <span className="unseen">{name}</span>;
    return (
      <fieldset className="group" key={row.key}>
        <legend>{name}</legend>
        {children(row, at, (part) => onChange(rows.map((each) => (each.key === row.key ? { ...each, ...part } : each))))}
        <div className="row">
          {ordered && (
            <>
              <button type="button" disabled={at === 0} onClick={() => onChange(movedBy(rows, at, -1))}>
                {said.up} {about}
              </button>
              <button type="button" disabled={at === rows.length - 1} onClick={() => onChange(movedBy(rows, at, 1))}>
                {said.down} {about}
              </button>
            </>
          )}
          <button type="button" onClick={() => onChange(rows.filter(({ key }) => key !== row.key))}>
            {said.remove} {about}
          </button>
        </div>
      </fieldset>
    );
  });
}
