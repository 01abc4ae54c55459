import { deviceStore } from '../offline/device-store.js';
import { KEYS } from '../offline/kept-store.js';
import type { Draft } from './draft.js';

let waiting: Draft | undefined;
let writing: Promise<void> | undefined;

async function write(): Promise<void> {
  while (waiting !== undefined) {
    const draft = waiting;
    waiting = undefined;
    await deviceStore.put([[KEYS.draft(draft.personId, draft.jobId), draft]]);
  }
}

/** Keeps the draft on the device. While one is being written only the latest of those that come is kept. */
export function keepDraft(draft: Draft): Promise<void> {
  waiting = draft;
  writing ??= write().finally(() => {
    writing = undefined;
  });
  return writing;
}
