import { useEffect, useSyncExternalStore } from 'react';
import { deviceStore } from './device-store.js';
import { Outbox, type Unsent } from './outbox.js';
import { toService } from './to-service.js';

const others = typeof BroadcastChannel === 'undefined' ? undefined : new BroadcastChannel('skidkeep-work');
let onOtherPerson = (): void => {};

/** The outbox of this device. */
export const outbox = new Outbox({
  store: deviceStore,
  transport: toService,
  now: () => new Date(),
  // Without https there are no locks: then two open pages may send the same sheet, which the service stores once by its id.
  alone: async (work) => ('locks' in navigator ? navigator.locks.request('skidkeep-outbox', work) : work()),
  later: (pauseMs, work) => {
    const timer = setTimeout(work, pauseMs);
    return () => clearTimeout(timer);
  },
  onOtherPerson: () => onOtherPerson(),
  tellOthers: () => others?.postMessage('changed'),
});
others?.addEventListener('message', () => void outbox.look());

export const useUnsent = (): Unsent => useSyncExternalStore(outbox.subscribe, outbox.snapshot);

/** Sends what waits for this person: at once, when the signal comes back, when the page is looked at again, and from time to time. */
export function useSending(personId: string | null, askWhoIsThere: () => void): void {
  useEffect(() => {
    onOtherPerson = askWhoIsThere;
    void outbox.isFor(personId);
    const signalIsBack = () => void outbox.signalIsBack();
    const seen = () => document.visibilityState === 'visible' && signalIsBack();
    window.addEventListener('online', signalIsBack);
    document.addEventListener('visibilitychange', seen);
    return () => {
      window.removeEventListener('online', signalIsBack);
      document.removeEventListener('visibilitychange', seen);
    };
  }, [personId, askWhoIsThere]);
}
