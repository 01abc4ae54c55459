import { createHash } from 'node:crypto';
import { Injectable, type OnApplicationShutdown } from '@nestjs/common';
import { PrismaPg } from '@prisma/adapter-pg';
import pg from 'pg';
import { type Prisma, PrismaClient } from '../../generated/prisma/client.js';
import type { Caller } from '../identity/caller.js';

/**
 * Sessions of one instance. More of them share the same processors and slow each other down: lists for 16 callers at once are quicker through 6 sessions than through 8 or 16, the slowest most
 * of all. Fewer would not do: four loads and the recomputation hold one each and now and then need another.
 */
const SESSIONS = 6;

const USUAL_TIMEOUT_MS = 30_000;
/** A table of 100,000 rows takes some seconds, and a busy machine is many times slower. */
const TABLE_TIMEOUT_MS = 300_000;

/**
 * A statement that begins so is planned once a session. For what is large, runs often and has one good plan whatever its values are: planning would cost more than running it.
 */
export const PLANNED_ONCE = '/* planned once */';

const names = new Map<string, string>();
/** The same statement has the same name; others have none, and are planned each time. */
function nameOf({ sql }: { readonly sql: string }): string {
  if (!sql.startsWith(PLANNED_ONCE)) return '';
  const name = names.get(sql) ?? createHash('sha256').update(sql).digest('hex').slice(0, 32);
  names.set(sql, name);
  return name;
}

/** What a repository reads through: Prisma itself, or one transaction of it. */
export type Reader = Prisma.TransactionClient;

/**
 * One pool for Prisma and for the statements that Prisma cannot say (COPY, sets).
 * Every session works as `skidkeep_app`, which may neither change tables nor pass over row-level security.
 */
@Injectable()
export class Database implements OnApplicationShutdown {
  readonly pool: pg.Pool;
  readonly prisma: PrismaClient;

  constructor(readonly url: string) {
    this.pool = new pg.Pool({ connectionString: url, max: SESSIONS, options: '-c role=skidkeep_app' });
    // The server cut a session: an idle one is replaced, one in use fails its query. Neither may end the process.
    this.pool.on('error', () => {});
    this.pool.on('connect', (client) => client.on('error', () => {}));
    // Under load a transaction waits for its session, and a busy machine is slow: neither is a fault of the caller.
    this.prisma = new PrismaClient({
      adapter: new PrismaPg(this.pool, { statementNameGenerator: nameOf }),
      transactionOptions: { maxWait: 15_000, timeout: USUAL_TIMEOUT_MS },
    });
  }

  /** Reads for the caller: a client's reads are one transaction in the client role, which sees that client's rows only. */
  async readFor<T>(caller: Caller, work: (reader: Reader) => Promise<T>): Promise<T> {
    const { clientId } = caller;
    if (clientId === null) return work(this.prisma);
    return this.prisma.$transaction(async (tx) => {
      await tx.$queryRaw`SELECT set_config('skidkeep.client', ${clientId}, true), set_config('role', 'skidkeep_client', true)`;
      return work(tx);
    });
  }

  /** One transaction of Prisma. */
  write<T>(work: (tx: Reader) => Promise<T>): Promise<T> {
    return this.prisma.$transaction(work);
  }

  /**
   * One transaction that stores a table of up to 100,000 rows. In its midst the database takes a table that was just filled for an empty one, and would compare each row with each:
   * it is told to join by hashes.
   */
  writeTable<T>(work: (tx: Reader) => Promise<T>): Promise<T> {
    return this.prisma.$transaction(
      async (tx) => {
        await tx.$executeRaw`SET LOCAL enable_nestloop = off`;
        return work(tx);
      },
      { timeout: TABLE_TIMEOUT_MS },
    );
  }

  /** After all modules have ended their work, and the last request was answered: nobody asks any more. */
  async onApplicationShutdown(): Promise<void> {
    await this.prisma.$disconnect();
    if (!this.pool.ended) await this.pool.end();
  }
}
