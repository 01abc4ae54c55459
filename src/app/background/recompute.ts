import { Injectable } from '@nestjs/common';
import { Database } from '../database/database.js';
import { Queue, type SqlRunner } from './queue.js';

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

/**
 * Makes the conclusions of one skid again after its facts changed: every stage adds its step, and they run in the order of the stages.
 * One entry a skid waits at most; one worker at a time works on a skid, whatever the number of instances.
 */
@Injectable()
export class Recompute {
  private readonly steps = new Map<number, Step>();

  constructor(
    private readonly database: Database,
    private readonly queue: Queue,
  ) {
    const work = async ({ skidId }: { skidId: string }) => this.now(skidId);
    queue.add({ name: RECOMPUTE, retryLimit: 3, retryDelay: 30, pollingSeconds: 0.5, work });
    queue.add({ name: EVERY_HOUR, cron: '7 * * * *', work: async () => this.afterMidnight() });
  }

  /** `order` is the place of the stage in the picture of the stages. */
  addStep(order: number, step: Step): void {
    this.steps.set(order, step);
  }

  /** Asks for the skid's conclusions to be made again, in the transaction of the change when its runner is given. */
  async later(skidId: string, sql: SqlRunner = this.database.pool): Promise<void> {
    await this.queue.send(RECOMPUTE, { skidId }, { key: skidId, sql });
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
}
