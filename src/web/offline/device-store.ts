import { createStore, delMany, get, keys, setMany } from 'idb-keyval';
import type { KeptStore } from './kept-store.js';

let place: ReturnType<typeof createStore> | undefined;
/** Opened at first use: a browser may have switched its storage off. */
const open = () => (place ??= createStore('skidkeep-work', 'kept'));

/** In the database of the browser. Photographs go in as bytes: as files some browsers lose them. */
export const deviceStore: KeptStore = {
  get: async (key) => get(key, open()),
  put: async (entries) =>
    setMany(
      entries.map(([key, value]) => [key, value]),
      open(),
    ),
  remove: async (gone) => delMany([...gone], open()),
  keysFrom: async (prefix) => (await keys<string>(open())).filter((key) => key.startsWith(prefix)),
};
