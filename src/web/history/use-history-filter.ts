import { useCallback } from 'react';
import { useSearchParams } from 'wouter';
import { HISTORY_KINDS } from '../../shared/history-kinds.js';

const DAY = /^\d{4}-\d{2}-\d{2}$/;
const dayIn = (text: string | null): string => (text !== null && DAY.test(text) ? text : '');

/** What the history is narrowed to, kept in the address so that it can be sent on and found again with the back button. */
export function useHistoryFilter() {
  const [params, setParams] = useSearchParams();
  const kind = HISTORY_KINDS.find((one) => one === params.get('kind'));
  const [find, from, to] = [params.get('find') ?? '', dayIn(params.get('from')), dayIn(params.get('to'))];
  const set = useCallback(
    (change: Readonly<Record<string, string>>) =>
      setParams(
        (before) => {
          const after = new URLSearchParams(before);
          for (const [name, value] of Object.entries(change)) {
            if (value === '') after.delete(name);
            else after.set(name, value);
          }
          return after;
        },
        { replace: true },
      ),
    [setParams],
  );
  return {
    kind,
    find,
    period: { from, to },
    key: params.toString(),
    set,
    setFind: useCallback((text: string) => set({ find: text }), [set]),
    /** For the query: nothing that is not asked for */
    query: {
      ...(kind === undefined ? {} : { kind }),
      ...(find === '' ? {} : { find }),
      ...(from === '' ? {} : { from }),
      ...(to === '' ? {} : { to }),
    },
  };
}
