import { useState } from 'react';
import { number } from '../format.js';
import { words } from '../words.js';

const PHONE = '(max-width: 40rem)';

/** Of a list that is not alone on its page, and of every list on a phone, where fifty stacked records would have no end in reach. */
export const FEW_ROWS = 10;
const pageSize = (): number => (matchMedia(PHONE).matches ? FEW_ROWS : 50);

/** Which page of a list is shown. The service gives a cursor to the next page only, so those that were passed are kept for the way back. */
export interface Paging {
  readonly limit: number;
  readonly cursor: string | undefined;
  readonly page: number;
  readonly forward: (cursor: string) => void;
  readonly back: () => void;
}

/** Begins again at the first page whenever `filter` changes. */
export function usePaging(filter: string, rows?: number): Paging {
  const [limit] = useState(rows ?? pageSize);
  const [passed, setPassed] = useState<{ filter: string; cursors: readonly string[] }>({ filter, cursors: [] });
  const cursors = passed.filter === filter ? passed.cursors : [];
  return {
    limit,
    cursor: cursors.at(-1),
    page: cursors.length + 1,
    forward: (cursor) => setPassed({ filter, cursors: [...cursors, cursor] }),
    back: () => setPassed({ filter, cursors: cursors.slice(0, -1) }),
  };
}

export function Pager({ paging, list, what }: { paging: Paging; list: { readonly next: string | null; readonly total?: number }; what: string }) {
  const { next, total } = list;
  if (next === null && paging.page === 1) return null;
  return (
    <nav className="pager no-print" aria-label={words.paging.name(what)}>
      <button type="button" onClick={paging.back} disabled={paging.page === 1}>
        {words.paging.back}
      </button>
      <span>
        {total === undefined
          ? words.paging.onPage(number(paging.page))
          : words.paging.page(number(paging.page), number(Math.max(paging.page, Math.ceil(total / paging.limit))))}
      </span>
      <button type="button" onClick={() => next !== null && paging.forward(next)} disabled={next === null}>
        {words.paging.forward}
      </button>
    </nav>
  );
}
