import { newUuid } from '../new-uuid.js';

let last: { readonly body: string; readonly key: string } | undefined;

/** A UUID for the Idempotency-Key header: the same one while the same body is sent again, so that a lost answer does no harm. */
export function requestKey(body: unknown): string {
  const text = JSON.stringify(body);
  if (last?.body !== text) last = { body: text, key: newUuid() };
  return last.key;
}
