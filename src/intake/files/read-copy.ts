const EPOCH_2000_MS = Date.UTC(2000, 0, 1);
const TWO_TO_32 = 2 ** 32;
/** Signature, flags and length of the extension */
const HEAD_BYTES = 19;
/** Count of fields; then length and value of int8 and float8 */
const ROW_BYTES = 2 + 12 + 12;

/** Rows of (timestamptz, float8), neither of them null, from the bytes of a COPY in binary format. */
export async function readTimedValues(bytes: AsyncIterable<Buffer>): Promise<{ at: Float64Array; values: Float64Array }> {
  const chunks: Buffer[] = [];
  for await (const chunk of bytes) chunks.push(chunk);
  const all = Buffer.concat(chunks);
  const count = Math.max(0, Math.floor((all.length - HEAD_BYTES) / ROW_BYTES));
  const view = new DataView(all.buffer, all.byteOffset, all.byteLength);
  const at = new Float64Array(count);
  const values = new Float64Array(count);
  for (let row = 0, from = HEAD_BYTES; row < count; row++, from += ROW_BYTES) {
    const microseconds = view.getInt32(from + 6) * TWO_TO_32 + view.getUint32(from + 10);
    at[row] = microseconds / 1000 + EPOCH_2000_MS;
    values[row] = view.getFloat64(from + 18);
  }
  return { at, values };
}
