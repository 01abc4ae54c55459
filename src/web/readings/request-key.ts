let last: { readonly body: string; readonly key: string } | undefined;

/** A UUID for the Idempotency-Key header: the same one while the same body is sent again, so that a lost answer does no harm. */
export function requestKey(body: unknown): string {
  const text = JSON.stringify(body);
  if (last?.body !== text) last = { body: text, key: newUuid() };
  return last.key;
}

/** `crypto.randomUUID` is missing on pages that came without https, as inside a plant. */
function newUuid(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = ((bytes[6] ?? 0) & 0x0f) | 0x40;
  bytes[8] = ((bytes[8] ?? 0) & 0x3f) | 0x80;
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, '$1-$2-$3-$4-$5');
}
