import type pg from 'pg';
import type { ProblemList } from '../core/problem-list.js';
import { SampleChunk } from '../files/sample-chunk.js';
import { CopyIn } from './copy-in.repository.js';
import { type LoadScope, noCounts, type StoreCounts } from './record-store.repository.js';
import type { Transaction } from './transactions.repository.js';

const VALUES_AT_ONCE = 100_000;
const DIFFERING_LISTED = 60;
const COLUMNS = '(signal_id, at, value, quality, load_no)';

export interface SampleTarget {
  readonly tx: Transaction;
  /** For months and look-ups while the session of the load is busy with a COPY */
  readonly pool: pg.Pool;
  readonly scope: LoadScope;
  readonly dryRun: boolean;
  /** Of the signals that may come */
  readonly signalIds: readonly number[];
  readonly nameOf: (signalId: number) => string;
}

interface MergeRow {
  readonly kept: number;
  readonly known: number;
  readonly differing: number;
  readonly first: Date | null;
  readonly last: Date | null;
}

/**
 * Stores samples, each once.
 *
 * Rows that come in order of time, into a stretch of time in which nothing is stored yet, go straight into the table; this is what nearly all loads do, and
 * nothing can be known or differing there. All others go through a temporary table, in which each is compared with what is stored.
 * The lock of the skid keeps other loads away in the meantime. A dry run stores into a temporary table of its own.
 */
export class SampleWriter {
  readonly counts: StoreCounts = noCounts();
  /** The stretch of time in which something has changed */
  firstMs = Number.POSITIVE_INFINITY;
  lastMs = Number.NEGATIVE_INFINITY;
  private readonly chunk = new SampleChunk();
  private readonly months = new Set<string>();
  private readonly newMonths = new Set<string>();
  private monthEndMs = Number.NEGATIVE_INFINITY;
  private monthStartMs = Number.POSITIVE_INFINITY;
  private copy: CopyIn | undefined;
  private inOrder = true;
  private rowMs = Number.NEGATIVE_INFINITY;
  private rowLine = -1;
  private storedUntilMs = Number.NEGATIVE_INFINITY;
  private freeUntilMs = Number.NEGATIVE_INFINITY;

  private constructor(
    private readonly target: SampleTarget,
    private readonly problems: ProblemList,
  ) {}

  static async open(target: SampleTarget, problems: ProblemList): Promise<SampleWriter> {
    await target.tx.query(
      `CREATE TEMPORARY TABLE incoming (signal_id int NOT NULL, at timestamptz(3) NOT NULL, value float8 NOT NULL, quality smallint NOT NULL, line int NOT NULL) ON COMMIT DROP`,
    );
    if (target.dryRun) await target.tx.query('CREATE TEMPORARY TABLE tried (LIKE sample INCLUDING ALL) ON COMMIT DROP');
    return new SampleWriter(target, problems);
  }

  add(signalId: number, atMs: number, value: number, quality: number, line: number): void {
    if (line !== this.rowLine) {
      if (!(atMs > this.rowMs)) this.inOrder = false;
      this.rowLine = line;
      this.rowMs = atMs;
      if (atMs < this.monthStartMs || atMs >= this.monthEndMs) this.enterMonth(atMs);
    }
    this.chunk.add(signalId, atMs, value, quality, line);
  }

  /** Stores what has come, if it is enough to be worth it. */
  async drain(): Promise<void> {
    if (this.chunk.count >= VALUES_AT_ONCE) await this.store();
  }

  async end(): Promise<void> {
    if (this.chunk.count > 0) await this.store();
    await this.closeCopy();
  }

  async abort(): Promise<void> {
    await this.copy?.abort();
  }

  private async store(): Promise<void> {
    const { chunk } = this;
    await this.makeMonths();
    const beyond = this.inOrder && chunk.firstMs > this.storedUntilMs;
    if (beyond && chunk.lastMs >= this.freeUntilMs) this.freeUntilMs = await this.nextStoredMs(chunk.firstMs);
    if (beyond && chunk.lastMs < this.freeUntilMs) {
      this.copy ??= new CopyIn(this.target.tx, `${this.target.dryRun ? 'tried' : 'sample'} ${COLUMNS}`);
      await this.copy.write(chunk.toCopyRows(this.target.scope));
      this.counts.kept += chunk.count;
      this.touch(chunk.firstMs, chunk.lastMs);
    } else {
      await this.closeCopy();
      await this.merge();
      this.freeUntilMs = Number.NEGATIVE_INFINITY;
    }
    this.storedUntilMs = Math.max(this.storedUntilMs, chunk.lastMs);
    this.inOrder = true;
    chunk.clear();
  }

  /** Compares the chunk with what is stored, row by row in the order of the file. */
  private async merge(): Promise<void> {
    const { tx, scope, dryRun } = this.target;
    const { chunk } = this;
    const incoming = new CopyIn(tx, 'incoming (signal_id, at, value, quality, line)');
    await incoming.write(chunk.toCopyRows('line'));
    await incoming.close();
    const stored = dryRun ? '(SELECT * FROM sample UNION ALL SELECT * FROM tried)' : 'sample';
    const within = [new Date(chunk.firstMs), new Date(chunk.lastMs), this.target.signalIds];
    await tx.query(
      `CREATE TEMPORARY TABLE compared ON COMMIT DROP AS
       SELECT *, CASE WHEN nth = 1 THEN stored_value ELSE before_value END AS reference
         FROM (SELECT i.*, s.value AS stored_value, s.load_no AS stored_load, row_number() OVER w AS nth, row_number() OVER (PARTITION BY i.signal_id, i.at ORDER BY i.line DESC) AS from_last,
                      ${scope.replaceDiffering ? 'lag(i.value) OVER w' : 'coalesce(s.value, first_value(i.value) OVER w)'} AS before_value
                 FROM incoming i
                 LEFT JOIN (SELECT * FROM ${stored} s WHERE s.at BETWEEN $1 AND $2 AND s.signal_id = ANY($3)) s ON s.signal_id = i.signal_id AND s.at = i.at
               WINDOW w AS (PARTITION BY i.signal_id, i.at ORDER BY i.line)) ranked`,
      within,
    );
    const { rows } = await tx.query<MergeRow>(
      `SELECT count(*) FILTER (WHERE reference IS NULL)::int AS kept, count(*) FILTER (WHERE reference = value)::int AS known,
              count(*) FILTER (WHERE reference <> value)::int AS differing,
              min(at) FILTER (WHERE reference IS NULL OR reference <> value) AS first, max(at) FILTER (WHERE reference IS NULL OR reference <> value) AS last
         FROM compared`,
    );
    const merged = rows[0];
    if (merged !== undefined) await this.carryOut(merged);
    await tx.query('DROP TABLE compared');
    await tx.query('TRUNCATE incoming');
  }

  private async carryOut({ kept, known, differing, first, last }: MergeRow): Promise<void> {
    const { tx, scope, dryRun, nameOf } = this.target;
    const replaced = scope.replaceDiffering ? differing : 0;
    this.counts.kept += kept;
    this.counts.known += known;
    this.counts.differing += differing;
    this.counts.replaced += replaced;
    const winner = scope.replaceDiffering ? 'from_last = 1 AND stored_value IS NULL' : 'reference IS NULL';
    if (kept > 0) {
      await tx.query(
        `INSERT INTO ${dryRun ? 'tried' : 'sample'} ${COLUMNS} SELECT signal_id, at, value, quality, $1 FROM compared WHERE ${winner} ORDER BY signal_id, at`,
        [scope.loadNo],
      );
    }
    if (differing > 0) {
      const { rows } = await tx.query<{ line: number; signalId: number; value: number; reference: number }>(
        `SELECT line, signal_id AS "signalId", value, reference FROM compared WHERE reference <> value ORDER BY line, signal_id LIMIT ${DIFFERING_LISTED}`,
      );
      for (const { line, signalId, value, reference } of rows) {
        this.problems.add('differing', line, nameOf(signalId), `${value}; stored: ${reference}`, 'differs from what is stored');
      }
      this.problems.addUnlisted('differing', 'differs from what is stored', differing - rows.length);
    }
    if (replaced > 0 && !dryRun) await this.replace();
    if (first !== null && last !== null && kept + replaced > 0) this.touch(first.getTime(), last.getTime());
  }

  private async replace(): Promise<void> {
    const { tx, scope } = this.target;
    await tx.query(
      `INSERT INTO replaced_record (skid_id, kind, record, load_no, replaced_by_load)
       SELECT $1, 'sample', jsonb_build_object('signalId', signal_id, 'at', at, 'value', reference), CASE WHEN nth = 1 THEN stored_load ELSE $2 END, $2
         FROM compared WHERE reference <> value`,
      [scope.skidId, scope.loadNo],
    );
    await tx.query(
      `UPDATE sample s SET value = c.value, quality = c.quality, load_no = $1 FROM compared c
        WHERE c.from_last = 1 AND c.stored_value IS NOT NULL AND c.stored_value <> c.value AND s.signal_id = c.signal_id AND s.at = c.at`,
      [scope.loadNo],
    );
  }

  /** The first stored value of these signals from the moment on; infinity when there is none. */
  private async nextStoredMs(fromMs: number): Promise<number> {
    const { rows } = await this.target.pool.query<{ at: Date | null }>(
      `SELECT min(next.at) AS at FROM unnest($1::int[]) AS signal (id) CROSS JOIN LATERAL
         (SELECT s.at FROM sample s WHERE s.signal_id = signal.id AND s.at >= $2 ORDER BY s.at LIMIT 1) next`,
      [this.target.signalIds, new Date(fromMs)],
    );
    return rows[0]?.at?.getTime() ?? Number.POSITIVE_INFINITY;
  }

  private enterMonth(atMs: number): void {
    const moment = new Date(atMs);
    const [year, month] = [moment.getUTCFullYear(), moment.getUTCMonth()];
    this.monthStartMs = Date.UTC(year, month, 1);
    this.monthEndMs = Date.UTC(year, month + 1, 1);
    const name = new Date(this.monthStartMs).toISOString();
    if (!this.months.has(name)) this.newMonths.add(name);
    this.months.add(name);
  }

  /** A COPY that is open does not see a month that is made while it runs. */
  private async makeMonths(): Promise<void> {
    if (this.target.dryRun || this.newMonths.size === 0) return;
    await this.closeCopy();
    for (const month of this.newMonths) await this.target.pool.query('SELECT ensure_sample_month($1)', [month]);
    this.newMonths.clear();
  }

  private async closeCopy(): Promise<void> {
    const { copy } = this;
    this.copy = undefined;
    await copy?.close();
  }

  private touch(firstMs: number, lastMs: number): void {
    this.firstMs = Math.min(this.firstMs, firstMs);
    this.lastMs = Math.max(this.lastMs, lastMs);
  }
}
