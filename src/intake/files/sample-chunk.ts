const HEADER = Buffer.concat([Buffer.from('PGCOPY\n\xff\r\n\0', 'latin1'), Buffer.alloc(8)]);
const TRAILER = Buffer.from([0xff, 0xff]);
/** PostgreSQL counts microseconds from here. */
const EPOCH_2000_MS = Date.UTC(2000, 0, 1);
const TWO_TO_32 = 2 ** 32;
/** Count of fields; then length and value of int4, int8, float8, int2, int4 */
const ROW_BYTES = 2 + 8 + 12 + 12 + 6 + 8;

/** Values of samples side by side, without an object for each: a log has millions of them. */
export class SampleChunk {
  count = 0;
  firstMs = Number.POSITIVE_INFINITY;
  lastMs = Number.NEGATIVE_INFINITY;
  private signalIds = new Int32Array(1024);
  private at = new Float64Array(1024);
  private values = new Float64Array(1024);
  private qualities = new Int16Array(1024);
  private lines = new Int32Array(1024);

  add(signalId: number, atMs: number, value: number, quality: number, line: number): void {
    const row = this.count;
    if (row === this.at.length) this.grow();
    this.signalIds[row] = signalId;
    this.at[row] = atMs;
    this.values[row] = value;
    this.qualities[row] = quality;
    this.lines[row] = line;
    if (atMs < this.firstMs) this.firstMs = atMs;
    if (atMs > this.lastMs) this.lastMs = atMs;
    this.count = row + 1;
  }

  clear(): void {
    this.count = 0;
    this.firstMs = Number.POSITIVE_INFINITY;
    this.lastMs = Number.NEGATIVE_INFINITY;
  }

  /** Rows of (signal_id, at, value, quality, last) for COPY in its binary format, without head and tail; `last` is the line, or the number of the load. */
  toCopyRows(last: 'line' | { readonly loadNo: number }): Buffer {
    const bytes = Buffer.allocUnsafe(this.count * ROW_BYTES);
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    let to = 0;
    for (let row = 0; row < this.count; row++) {
      const microseconds = ((this.at[row] as number) - EPOCH_2000_MS) * 1000;
      const high = Math.floor(microseconds / TWO_TO_32);
      view.setInt16(to, 5);
      view.setInt32(to + 2, 4);
      view.setInt32(to + 6, this.signalIds[row] as number);
      view.setInt32(to + 10, 8);
      view.setInt32(to + 14, high);
      view.setUint32(to + 18, microseconds - high * TWO_TO_32);
      view.setInt32(to + 22, 8);
      view.setFloat64(to + 26, this.values[row] as number);
      view.setInt32(to + 34, 2);
      view.setInt16(to + 38, this.qualities[row] as number);
      view.setInt32(to + 40, 4);
      view.setInt32(to + 44, last === 'line' ? (this.lines[row] as number) : last.loadNo);
      to += ROW_BYTES;
    }
    return bytes;
  }

  private grow(): void {
    const larger = <T extends Int32Array | Float64Array | Int16Array>(array: T, empty: T): T => {
      empty.set(array);
      return empty;
    };
    const size = this.at.length * 2;
    this.signalIds = larger(this.signalIds, new Int32Array(size));
    this.at = larger(this.at, new Float64Array(size));
    this.values = larger(this.values, new Float64Array(size));
    this.qualities = larger(this.qualities, new Int16Array(size));
    this.lines = larger(this.lines, new Int32Array(size));
  }
}

export const COPY_HEADER = HEADER;
export const COPY_TRAILER = TRAILER;
