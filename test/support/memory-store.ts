import type { KeptStore } from '../../src/web/offline/kept-store.js';

/** The storage of a device, in memory; values are copied as a browser copies them. `room` is how many entries fit. */
export function memoryStore(room = Number.POSITIVE_INFINITY): KeptStore & { readonly kept: ReadonlyMap<string, unknown> } {
  const kept = new Map<string, unknown>();
  return {
    kept,
    get: async <T>(key: string) => structuredClone(kept.get(key)) as T | undefined,
    put: async (entries) => {
      const added = entries.filter(([key]) => !kept.has(key)).length;
      if (kept.size + added > room) throw Object.assign(new Error('no room'), { name: 'QuotaExceededError' });
      for (const [key, value] of entries) kept.set(key, structuredClone(value));
    },
    remove: async (keys) => {
      for (const key of keys) kept.delete(key);
    },
    keysFrom: async (prefix) => [...kept.keys()].filter((key) => key.startsWith(prefix)),
  };
}
