import { Injectable, Logger, type OnApplicationBootstrap, type OnModuleDestroy } from '@nestjs/common';
import PgBoss from 'pg-boss';
import { Database } from '../database/database.js';
import { BackgroundWork } from './background-work.js';

/** Something that runs statements: the pool, or the transaction of the change that asks for the work. */
export interface SqlRunner {
  query(text: string, values?: unknown[]): Promise<{ rows: unknown[] }>;
}

export interface KindOfWork<Data extends object> {
  readonly name: string;
  /** At these times by itself: minute, hour, day, month, day of the week, in UTC */
  readonly cron?: string;
  readonly retryLimit?: number;
  readonly retryDelay?: number;
  readonly pollingSeconds?: number;
  readonly work: (data: Data) => Promise<void>;
}

/** Work that waits in the database until a process takes it. Of each kind, and key, one entry waits at most. */
@Injectable()
export class Queue implements OnApplicationBootstrap, OnModuleDestroy {
  private readonly log = new Logger(Queue.name);
  private readonly boss: PgBoss;
  private readonly kinds: KindOfWork<object>[] = [];
  /** Statements of the library and work taken, which end before the pool may */
  private readonly underWay = new Set<Promise<unknown>>();
  private started = false;

  constructor(
    private readonly database: Database,
    private readonly background: BackgroundWork,
  ) {
    // The library runs its statements through the service's own pool: one place to count sessions.
    this.boss = new PgBoss({ db: { executeSql: (text, values) => this.track(database.pool.query(text, values)) } });
    this.boss.on('error', (error) => this.log.error(error.message));
  }

  /** Makes a kind of work known, while the modules are made. */
  add<Data extends object>(kind: KindOfWork<Data>): void {
    this.kinds.push(kind as KindOfWork<object>);
  }

  /** Puts an entry in, in the transaction of the change when its runner is given. */
  async send(name: string, data: object, { key, sql = this.database.pool }: { key?: string; sql?: SqlRunner } = {}): Promise<void> {
    const db = { executeSql: (text: string, values: unknown[]) => sql.query(text, values) };
    await this.boss.send(name, data, { db, ...(key === undefined ? {} : { singletonKey: key }) });
  }

  async onApplicationBootstrap(): Promise<void> {
    await this.boss.start();
    this.started = true;
    for (const { name, retryLimit = 2, retryDelay = 0 } of this.kinds) await this.boss.createQueue(name, { name, policy: 'short', retryLimit, retryDelay });
    if (!this.background.enabled) return;
    for (const { name, cron, pollingSeconds = 2, work } of this.kinds) {
      if (cron !== undefined) await this.boss.schedule(name, cron);
      await this.boss.work<object>(name, { pollingIntervalSeconds: pollingSeconds }, async (entries) => {
        for (const { data } of entries) await this.track(work(data));
      });
    }
  }

  async onModuleDestroy(): Promise<void> {
    if (this.started) await this.boss.stop({ graceful: true, wait: true, timeout: 5_000, close: false });
    // The library waits neither for an entry that it was just fetching, nor for the statement that says that an entry is done.
    while (this.underWay.size > 0) {
      await Promise.allSettled(this.underWay);
      await new Promise((next) => setImmediate(next));
    }
  }

  private track<T>(work: Promise<T>): Promise<T> {
    const tracked = work.finally(() => this.underWay.delete(tracked));
    this.underWay.add(tracked);
    return tracked;
  }
}
