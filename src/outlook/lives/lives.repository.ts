import { Injectable } from '@nestjs/common';
import { Database } from '../../app/index.js';

/** A part in use, by one clock. */
export interface PartRow {
  readonly positionId: string;
  readonly partId: string;
  readonly kind: string;
  readonly clock: string;
  readonly life: number;
  /** null: too little is known of its use, or the clock is the calendar */
  readonly dailyUse: number | null;
}

export interface FleetLifeRow {
  readonly kind: string;
  readonly clock: string;
  readonly life: number;
  readonly failed: boolean;
}

/** A rule that has parts replaced, with what was agreed for the skid or the place. */
export interface ReplacementRow {
  readonly kind: string;
  readonly positionId: string | null;
  readonly runHours: number | null;
  readonly starts: number | null;
  readonly cycles: number | null;
  readonly days: number | null;
}

/** Lives beyond these say nothing new of a kind, and the latest are nearest to today's parts. */
const MOST_LIVES = 400;

@Injectable()
export class LivesRepository {
  constructor(private readonly database: Database) {}

  async inUse(skidNo: number, kinds: readonly string[]): Promise<PartRow[]> {
    const { rows } = await this.database.pool.query<PartRow>(
      `SELECT l.position_id AS "positionId", l.part_id AS "partId", l.position_kind AS kind, l.clock, l.life, m.daily_use AS "dailyUse"
         FROM part_life l JOIN position p ON p.id = l.position_id AND p.ended_on IS NULL LEFT JOIN machine_condition m ON m.position_id = l.position_id AND m.kind = l.clock
        WHERE l.skid_no = $1 AND l.ended = 'in use' AND l.position_kind = ANY($2) ORDER BY p.name, l.clock`,
      [skidNo, kinds],
    );
    return rows;
  }

  /** Lives of the whole fleet: of each kind and clock all failures first, then the latest. */
  async ofFleet(kinds: readonly string[]): Promise<FleetLifeRow[]> {
    const { rows } = await this.database.pool.query<FleetLifeRow>(
      `SELECT kind, clock, life, failed FROM (
         SELECT position_kind AS kind, clock, life, ended = 'failed' AS failed,
                row_number() OVER (PARTITION BY position_kind, clock ORDER BY ended_on DESC NULLS FIRST, fitting_id) AS place FROM part_life WHERE position_kind = ANY($1)) l
        WHERE place <= ${MOST_LIVES}`,
      [kinds],
    );
    return rows;
  }

  /** What the rules of a skid say of replacing parts, each with the agreed change where there is one: one query. */
  async replacements(skidId: string): Promise<ReplacementRow[]> {
    const { rows } = await this.database.pool.query<ReplacementRow>(
      `SELECT r.position_kind AS kind, o.position_id AS "positionId", coalesce(o.run_hours, r.run_hours) AS "runHours", coalesce(o.starts, r.starts) AS starts,
              coalesce(o.cycles, r.cycles) AS cycles, coalesce(o.days, r.days) AS days
         FROM skid s JOIN upkeep_rule r ON r.ended_on IS NULL AND (r.skid_id = s.id OR (r.skid_id IS NULL AND r.rule_set_version_id = s.rule_set_version_id))
         JOIN task_sheet t ON t.id = r.task_sheet_id AND t.kind = 'part change'
         LEFT JOIN rule_override o ON o.skid_id = s.id AND o.ended_at IS NULL AND o.position_kind = r.position_kind AND o.task = r.task
        WHERE s.id = $1 AND NOT coalesce(o.off, false) ORDER BY o.position_id NULLS LAST, r.id`,
      [skidId],
    );
    return rows;
  }
}
