import { useCallback } from 'react';
import { useSearchParams } from 'wouter';
import { STANDINGS, type Standing } from '../../shared/standing.js';

/** What a list is narrowed to, kept in the address so that it can be sent on and found again with the back button. */
export function useFilter() {
  const [params, setParams] = useSearchParams();
  const standing = STANDINGS.find((one) => one === params.get('standing'));
  const find = params.get('find') ?? '';
  const set = useCallback(
    (name: 'find' | 'standing', value: string) =>
      setParams(
        (before) => {
          const after = new URLSearchParams(before);
          if (value === '') after.delete(name);
          else after.set(name, value);
          return after;
        },
        { replace: true },
      ),
    [setParams],
  );
  return {
    find,
    standing,
    key: params.toString(),
    setFind: useCallback((text: string) => set('find', text), [set]),
    setStanding: useCallback((one: Standing | undefined) => set('standing', one ?? ''), [set]),
    /** For the query: nothing that is not asked for */
    query: { ...(find === '' ? {} : { find }), ...(standing === undefined ? {} : { standing }) },
  };
}
