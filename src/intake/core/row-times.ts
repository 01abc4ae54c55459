import { type DoubledTime, resolveDoubledHour } from './doubled-hour.js';
import type { TimeRead } from './read-time.js';

/** Takes a row with its moment; `doubtful` when the row could as well be an hour later. */
export type TakeTimedRow<Row> = (row: Row, atMs: number, doubtful: boolean) => void;

/** As many rows wait for the end of a doubled hour: ten a second for two hours. */
const MOST_WAITING = 72_000;

/**
 * Gives every row its moment. Rows in a doubled hour wait until a row outside of it shows where they belong; all others pass straight through, in any order.
 */
export class RowTimes<Row> {
  private waiting: (DoubledTime & { readonly row: Row })[] = [];
  private lastMs: number | undefined;
  private usualStepMs: number | undefined;

  constructor(private readonly take: TakeTimedRow<Row>) {}

  add(row: Row, time: Exclude<TimeRead, { kind: 'bad-time' }>): void {
    if (time.kind === 'twice') {
      this.waiting.push({ row, firstMs: time.firstMs, secondMs: time.secondMs });
      if (this.waiting.length >= MOST_WAITING) this.settle(undefined);
      return;
    }
    if (this.waiting.length > 0) this.settle(time.atMs);
    if (this.lastMs !== undefined && time.atMs !== this.lastMs) this.usualStepMs = Math.abs(time.atMs - this.lastMs);
    this.lastMs = time.atMs;
    this.take(row, time.atMs, false);
  }

  /** No more rows will come. */
  end(): void {
    if (this.waiting.length > 0) this.settle(undefined);
  }

  private settle(afterMs: number | undefined): void {
    const { waiting } = this;
    this.waiting = [];
    const { kind, atMs } = resolveDoubledHour(waiting, this.lastMs, this.usualStepMs, afterMs);
    for (const [i, { row }] of waiting.entries()) this.take(row, atMs[i] as number, kind === 'doubtful');
    this.lastMs = atMs.at(-1);
  }
}
