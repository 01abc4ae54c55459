import { useCallback } from 'react';
import { useSearchParams } from 'wouter';

/** What a page is narrowed to, kept in the address so that it can be sent on and found again with the back button. */
export function useChoices<Name extends string>() {
  const [params, setParams] = useSearchParams();
  const choose = useCallback(
    (name: Name, value: string) =>
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
    choose,
    /** Undefined: not narrowed by it */
    of: (name: Name): string | undefined => params.get(name) || undefined,
    key: params.toString(),
  };
}
