import { del, get, set } from 'idb-keyval';
import { useEffect, useState } from 'react';

type Entries = Readonly<Record<string, string>>;

/**
 * Keeps what was typed on the device until it is sent: a plant room has no signal, and a phone forgets a page that is not looked at.
 * `restore` is called once, if there was something.
 */
export function useDraft(key: string, entries: Entries, untouched: Entries, restore: (draft: Record<string, string>) => void) {
  const [state, setState] = useState<'looking' | 'none' | 'restored' | 'saved'>('looking');
  useEffect(() => {
    void get<Record<string, string>>(key)
      .catch(() => undefined) // storage may be switched off
      .then((draft) => {
        setState(draft === undefined ? 'none' : 'restored');
        if (draft !== undefined) restore(draft);
      });
  }, [key]);
  useEffect(() => {
    if (state === 'looking' || entries === untouched) return;
    void set(key, entries).then(
      () => setState((before) => (before === 'restored' ? before : 'saved')),
      () => setState('none'),
    );
  }, [entries]);
  return {
    state,
    forget: () => {
      setState('none');
      void del(key).catch(() => undefined);
    },
  };
}
