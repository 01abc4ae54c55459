import { Injectable } from '@nestjs/common';
import { to as copyTo } from 'pg-copy-streams';
import type { SignalCode } from '../../shared/signals.js';
import { joinColumns } from '../core/join-columns.js';
import type { Samples } from '../core/samples.js';
import { readTimedValues } from '../files/read-copy.js';
import type { Transaction } from './transactions.repository.js';

export interface StoredSignal {
  readonly id: number;
  readonly code: SignalCode;
}

/** Samples as they are stored, in columns. */
@Injectable()
export class StoredSamples {
  /** Good values of the signals in a stretch of time, its end not included. COPY takes no parameters: numbers alone are put into its text. */
  async read(tx: Transaction, signals: readonly StoredSignal[], fromMs: number, toMs: number): Promise<Samples> {
    const columns = [];
    for (const { id, code } of signals) {
      const within = `at >= '${new Date(fromMs).toISOString()}' AND at < '${new Date(toMs).toISOString()}'`;
      const query = `SELECT at, value FROM sample WHERE signal_id = ${Math.trunc(id)} AND ${within} AND quality = 0 ORDER BY at`;
      columns.push({ code, ...(await readTimedValues(tx.query(copyTo(`COPY (${query}) TO STDOUT (FORMAT binary)`)))) });
    }
    return joinColumns(columns.filter(({ at }) => at.length > 0));
  }

  /** When the first of the signals has a value, from the moment on. */
  async nextMs(tx: Transaction, signals: readonly StoredSignal[], fromMs: number): Promise<number | null> {
    const { rows } = await tx.query<{ at: Date | null }>(
      `SELECT min(next.at) AS at FROM unnest($1::int[]) AS signal (id) CROSS JOIN LATERAL
         (SELECT s.at FROM sample s WHERE s.signal_id = signal.id AND s.at >= $2 ORDER BY s.at LIMIT 1) next`,
      [signals.map(({ id }) => id), new Date(fromMs)],
    );
    return rows[0]?.at?.getTime() ?? null;
  }
}
