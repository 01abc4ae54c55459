import { Injectable } from '@nestjs/common';
import { type Caller, Database } from '../app/index.js';

export interface MachineRow {
  readonly positionId: string;
  readonly positionName: string;
  readonly positionKind: string;
  readonly counter: string;
  readonly life: number;
  readonly asOf: Date;
  readonly dailyUse: number | null;
  readonly source: string;
  readonly rejected: string[];
}

export interface PositionRow {
  readonly id: string;
  readonly kind: string;
  readonly strokesPerCycle: number | null;
}

@Injectable()
export class MachinesRepository {
  constructor(private readonly database: Database) {}

  /** Every machine of the skid with its counters: one query. */
  ofSkid(caller: Caller, skidId: string): Promise<MachineRow[]> {
    return this.database.readFor(
      caller,
      (reader) => reader.$queryRaw<MachineRow[]>`
        SELECT p.id AS "positionId", p.name AS "positionName", p.kind AS "positionKind", m.kind AS counter, m.life, m.as_of AS "asOf", m.daily_use AS "dailyUse", m.source, m.rejected
          FROM machine_condition m JOIN position p ON p.id = m.position_id WHERE p.skid_id = ${skidId}::uuid AND p.ended_on IS NULL ORDER BY p.name, m.kind`,
    );
  }

  async positionsOf(skidId: string): Promise<PositionRow[]> {
    const { rows } = await this.database.pool.query<PositionRow>(
      'SELECT id, kind, strokes_per_cycle AS "strokesPerCycle" FROM position WHERE skid_id = $1 AND ended_on IS NULL',
      [skidId],
    );
    return rows;
  }

  /** Cycles of each day, by the end of that day. */
  async cyclesByDay(skidNo: number): Promise<{ at: Date; cycles: number }[]> {
    const { rows } = await this.database.pool.query<{ at: Date; cycles: number }>(
      `SELECT date_trunc('day', started_at, 'UTC') + interval '1 day' AS at, count(*)::int AS cycles FROM cycle WHERE skid_no = $1 GROUP BY 1 ORDER BY 1`,
      [skidNo],
    );
    return rows;
  }
}
