import { once } from 'node:events';
import { finished } from 'node:stream/promises';
import { from as copyFrom } from 'pg-copy-streams';
import { COPY_HEADER, COPY_TRAILER } from '../files/sample-chunk.js';
import type { Transaction } from './transactions.repository.js';

/** A COPY in binary format that stays open while rows come. Nothing else can be said to the session until it is closed. */
export class CopyIn {
  private readonly stream;
  private readonly done: Promise<void>;

  constructor(tx: Transaction, target: string) {
    this.stream = tx.query(copyFrom(`COPY ${target} FROM STDIN (FORMAT binary)`));
    this.done = finished(this.stream);
    this.done.catch(() => {}); // told by `write` or `close`, whichever comes next
    this.stream.write(COPY_HEADER);
  }

  async write(rows: Buffer): Promise<void> {
    if (this.stream.errored !== null) await this.done;
    if (!this.stream.write(rows)) await Promise.race([once(this.stream, 'drain'), this.done]);
  }

  async close(): Promise<void> {
    this.stream.end(COPY_TRAILER);
    await this.done;
  }

  /** Ends it so that the session can be spoken to again. */
  async abort(): Promise<void> {
    this.stream.destroy(new Error('the load was given up'));
    await this.done.catch(() => {});
  }
}
