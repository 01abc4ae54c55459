import { Injectable } from '@nestjs/common';
import type pg from 'pg';
import { Database, type Sql } from '../../app/index.js';
import { SkidBusy } from '../intake.errors.js';

export type Transaction = pg.PoolClient;

/** Whatever runs statements inside a transaction: one of `pg`, or one of Prisma. */
export interface Statements {
  query<Row extends object>(text: string, values?: unknown[]): Promise<{ rows: Row[] }>;
}

/** Namespace of the advisory locks that keep two loads of one skid apart. */
const LOAD_LOCK = 5_104;
const LOCK_NOT_AVAILABLE = '55P03';

/** One transaction of `pg`, with COPY at hand. */
@Injectable()
export class Transactions {
  constructor(private readonly database: Database) {}

  /** Loads of one skid come one after the other, so that what one has counted as new stays new. A dry run does all of it, and undoes it. */
  async ofSkid<T>(skidNo: number, dryRun: boolean, work: (tx: Transaction) => Promise<T>): Promise<T> {
    const tx = await this.database.pool.connect();
    let broken: Error | undefined;
    try {
      await tx.query(`BEGIN; SET LOCAL lock_timeout = '20s'`);
      await tx.query('SELECT pg_advisory_xact_lock($1, $2)', [LOAD_LOCK, skidNo]);
      const result = await work(tx);
      await tx.query(dryRun ? 'ROLLBACK' : 'COMMIT');
      return result;
    } catch (error) {
      // A session that cannot even roll back is in an unknown state and leaves the pool.
      await tx.query('ROLLBACK').catch((failure: Error) => {
        broken = failure;
      });
      if ((error as { code?: unknown }).code === LOCK_NOT_AVAILABLE)
        throw new SkidBusy('Another load of this skid is still running; try again when it has ended');
      throw error;
    } finally {
      tx.release(broken);
    }
  }
}

/** The transaction as the keeper of Idempotency-Keys wants it. */
export function sqlOf(tx: Transaction): Sql {
  return { query: async <Row>(text: string, values: readonly unknown[]) => (await tx.query(text, [...values])).rows as Row[] };
}

/** JSON for a `jsonb` parameter: half a surrogate pair is no text there. */
export function toJsonb(value: unknown): string {
  return JSON.stringify(value, (_, part: unknown) => (typeof part === 'string' ? part.replaceAll(/[\uD800-\uDFFF]/gu, '\uFFFD') : part));
}
