import { useState } from 'react';

/** Skids that are ticked in a list; they stay ticked while the list is turned over or narrowed. */
export function useSkidsChosen() {
  const [ids, setIds] = useState<readonly string[]>([]);
  return {
    ids,
    toggle: (id: string) => setIds((before) => (before.includes(id) ? before.filter((each) => each !== id) : [...before, id])),
    add: (more: readonly string[]) => setIds((before) => [...new Set([...before, ...more])]),
    clear: () => setIds([]),
  };
}
