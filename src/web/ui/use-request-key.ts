import { useRef } from 'react';
import { newUuid } from '../new-uuid.js';

/** The Idempotency-Key of what one form sends: the same while the same is sent again; another form, or another time, has another. */
export function useRequestKey(): (body: unknown) => { readonly 'Idempotency-Key': string } {
  const last = useRef<{ readonly text: string; readonly key: string }>(undefined);
  return (body) => {
    const text = JSON.stringify(body);
    if (last.current?.text !== text) last.current = { text, key: newUuid() };
    return { 'Idempotency-Key': last.current.key };
  };
}
