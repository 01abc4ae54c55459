import { randomUUID } from 'node:crypto';

/** A UUID of version 7 (RFC 9562): its first 48 bits are the time, so that keys made together lie together. The rest is that of a random one, which the engine draws many at a time. */
export function newId(): string {
  const time = Date.now().toString(16).padStart(12, '0');
  return `${time.slice(0, 8)}-${time.slice(8)}-7${randomUUID().slice(15)}`;
}
