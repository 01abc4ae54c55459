import { type ReactNode, useState } from 'react';
import { words } from '../words.js';
import { FEW_ROWS } from './paging.js';

/** A list that came whole: its first rows, and the rest when asked for. */
export function ShowMore<Row>({ rows, children }: { rows: readonly Row[]; children: (shown: readonly Row[]) => ReactNode }) {
  const [isWhole, setWhole] = useState(false);
  return (
    <>
      {children(isWhole ? rows : rows.slice(0, FEW_ROWS))}
      {!isWhole && rows.length > FEW_ROWS && (
        <p className="no-print">
          <button type="button" onClick={() => setWhole(true)}>
            {words.showRest(rows.length - FEW_ROWS)}
          </button>
        </p>
      )}
    </>
  );
}
