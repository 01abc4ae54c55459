import { fromLocalField, toLocalField } from '../site-time.js';

type Fields = Readonly<Record<string, unknown>>;

/** What date and time fields hold, by the clocks at the site, as the moments that are sent; what is empty or no time stays as it is. */
export function toMoments(body: Fields, names: readonly string[], timeZone: string): Record<string, unknown> {
  const moments = names.flatMap((name) => {
    const text = body[name];
    const at = typeof text === 'string' ? fromLocalField(text, timeZone) : undefined;
    return at === undefined ? [] : [[name, at.toISOString()]];
  });
  return { ...body, ...Object.fromEntries(moments) };
}

/** The way back: moments of a record as its date and time fields show them. */
export function toFields(record: object, names: readonly string[], timeZone: string): Record<string, unknown> {
  const values = record as Fields;
  const texts = names.flatMap((name) => {
    const at = values[name];
    return typeof at === 'string' ? [[name, toLocalField(Date.parse(at), timeZone)]] : [];
  });
  return { ...values, ...Object.fromEntries(texts) };
}
