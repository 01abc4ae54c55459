import { Injectable, Logger, type OnApplicationBootstrap, type OnModuleDestroy } from '@nestjs/common';
import PgBoss from 'pg-boss';
import { Database } from '../database/database.js';
import { BackgroundWork } from './background-work.js';

const RECOMPUTE = 'recompute-skid';
const EVERY_HOUR = 'refresh-hourly';
/** Namespace of the advisory locks of skids, so that they meet no other lock of ours. */
const SKID_LOCK = 5_103;

export interface SkidToRecompute {
  readonly id: string;
  readonly no: number;
  readonly clientId: string;
}

type Step = (skid: SkidToRecompute) => Promise<void>;

/** Something that runs statements: the pool, or the transaction of the change that asks for the work. */
export interface SqlRunner {
  query(text: string, values?: unknown[]): Promise<{ rows: unknown[] }>;
}

/**
 * Makes the conclusions of one skid again after its facts changed: every stage adds its step, and they run in the order of the stages.
 * One entry a skid waits at most; one worker at a time works on a skid, whatever the number of instances.
 */
@Injectable()
export class Recompute implements OnApplicationBootstrap, OnModuleDestroy {
  private readonly log = new Logger(Recompute.name);
  private readonly boss: PgBoss;
  private readonly steps = new Map<number, Step>();
  private started = false;

  constructor(
    private readonly database: Database,
    private readonly work: BackgroundWork,
  ) {
    // The library runs its statements through the service's own pool: one place to count sessions.
    this.boss = new PgBoss({ db: { executeSql: (text, values) => database.pool.query(text, values) } });
    this.boss.on('error', (error) => this.log.error(error.message));
  }

  /** `order` is the place of the stage in the picture of the stages. */
  addStep(order: number, step: Step): void {
    this.steps.set(order, step);
  }

  async onApplicationBootstrap(): Promise<void> {
    await this.boss.start();
    this.started = true;
    await this.boss.createQueue(RECOMPUTE, { name: RECOMPUTE, policy: 'short', retryLimit: 3, retryDelay: 30 });
    await this.boss.createQueue(EVERY_HOUR);
    if (!this.work.enabled) return;
    await this.boss.schedule(EVERY_HOUR, '7 * * * *');
    await this.boss.work<{ skidId: string }>(RECOMPUTE, { pollingIntervalSeconds: 0.5 }, async (jobs) => {
      for (const { data } of jobs) await this.now(data.skidId);
    });
    await this.boss.work(EVERY_HOUR, async () => this.afterMidnight());
  }

  /** Asks for the skid's conclusions to be made again, in the transaction of the change when its runner is given. */
  async later(skidId: string, sql: SqlRunner = this.database.pool): Promise<void> {
    await this.boss.send(RECOMPUTE, { skidId }, { singletonKey: skidId, db: { executeSql: (text, values) => sql.query(text, values) } });
  }

  /** Every skid in whose site's zone a day began within the last hour: dues move with the day. */
  private async afterMidnight(): Promise<void> {
    const { rows } = await this.database.pool.query<{ id: string }>(
      `SELECT s.id FROM skid s JOIN site ON site.id = s.site_id WHERE s.ended_on IS NULL AND extract(hour FROM now() AT TIME ZONE site.time_zone) = 0`,
    );
    for (const { id } of rows) await this.later(id);
  }

  /** Makes the conclusions of the skid now; waits while another worker does. */
  async now(skidId: string): Promise<void> {
    const client = await this.database.pool.connect();
    try {
      const { rows } = await client.query<SkidToRecompute>('SELECT id, no, client_id AS "clientId" FROM skid WHERE id = $1', [skidId]);
      const skid = rows[0];
      if (skid === undefined) return;
      await client.query('SELECT pg_advisory_lock($1, $2)', [SKID_LOCK, skid.no]);
      try {
        for (const [, step] of [...this.steps].sort(([a], [b]) => a - b)) await step(skid);
      } finally {
        await client.query('SELECT pg_advisory_unlock($1, $2)', [SKID_LOCK, skid.no]);
      }
    } finally {
      client.release();
    }
  }

  async onModuleDestroy(): Promise<void> {
    if (this.started) await this.boss.stop({ graceful: true, wait: true, timeout: 5_000, close: false });
  }
}
