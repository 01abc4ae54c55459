import { useCallback, useState } from 'react';
import type { WorkChosen } from './chosen-work.js';

/** What is ticked in a list; it stays ticked while the list is turned over or narrowed. */
export function useChosen() {
  const [chosen, setChosen] = useState<readonly WorkChosen[]>([]);
  return {
    chosen,
    has: (id: string) => chosen.some((each) => each.id === id),
    toggle: useCallback(
      (work: WorkChosen) => setChosen((before) => (before.some(({ id }) => id === work.id) ? before.filter(({ id }) => id !== work.id) : [...before, work])),
      [],
    ),
    clear: useCallback(() => setChosen([]), []),
  };
}
export type Chosen = ReturnType<typeof useChosen>;
