import { Injectable } from '@nestjs/common';
import { Database } from '../app/index.js';

/** A position that holds a part, with what rules need to know of it. */
export interface UpkeepPosition {
  readonly id: string;
  readonly kind: string;
  readonly name: string;
  readonly fittedAt: Date | null;
}

export interface UpkeepRuleRow {
  readonly id: string;
  readonly task: string;
  readonly positionKind: string;
  readonly skidId: string | null;
  readonly runHours: number | null;
  readonly starts: number | null;
  readonly cycles: number | null;
  readonly days: number | null;
  readonly base: 'floating' | 'fixed';
  readonly graceDays: number | null;
  readonly contains: string[];
  readonly taskSheetId: string;
  readonly expectedMinutes: number | null;
}

export interface UpkeepSkid {
  readonly timeZone: string;
  readonly today: string;
  readonly serviceState: string;
  readonly commissionedOn: string | null;
}

export interface LatestOutlook {
  readonly id: string;
  readonly subject: string;
  readonly limitKind: string;
  readonly kind: 'outlook' | 'limit-met' | 'too-little-data';
  readonly originDay: string;
  readonly p10Days: number | null;
  readonly p50Days: number | null;
  readonly reason: string;
  readonly dataUsed: string[];
}

export interface DueToStore {
  readonly positionId: string | null;
  readonly ruleId: string | null;
  readonly outlookId: string | null;
  readonly task: string;
  readonly taskSheetId: string | null;
  readonly limit: string;
  readonly earliestOn: string | null;
  readonly bestOn: string | null;
  readonly latestOn: string | null;
  readonly reason: string;
  readonly computedFrom: readonly { name: string; value: string }[];
  readonly expectedMinutes: number | null;
}

@Injectable()
export class UpkeepRepository {
  constructor(private readonly database: Database) {}

  async skid(skidId: string, now: Date): Promise<UpkeepSkid | undefined> {
    const { rows } = await this.database.pool.query<UpkeepSkid>(
      `SELECT site.time_zone AS "timeZone", to_char(($2::timestamptz AT TIME ZONE site.time_zone)::date, 'YYYY-MM-DD') AS today, s.service_state AS "serviceState",
              to_char(s.commissioned_on, 'YYYY-MM-DD') AS "commissionedOn"
         FROM skid s JOIN site ON site.id = s.site_id WHERE s.id = $1 AND s.ended_on IS NULL`,
      [skidId, now],
    );
    return rows[0];
  }

  async positions(skidId: string): Promise<UpkeepPosition[]> {
    const { rows } = await this.database.pool.query<UpkeepPosition>(
      `SELECT p.id, p.kind, p.name, f.fitted_at AS "fittedAt" FROM position p LEFT JOIN fitting f ON f.position_id = p.id AND f.removed_at IS NULL
        WHERE p.skid_id = $1 AND p.ended_on IS NULL ORDER BY p.name`,
      [skidId],
    );
    return rows;
  }

  /** The rules that hold for the skid: its own in the place of a general one for the same task and kind of position. */
  async rules(skidId: string): Promise<UpkeepRuleRow[]> {
    const { rows } = await this.database.pool.query<UpkeepRuleRow>(
      `SELECT DISTINCT ON (position_kind, task) id, task, position_kind AS "positionKind", skid_id AS "skidId", run_hours AS "runHours", starts, cycles, days, base,
              grace_days AS "graceDays", contains, task_sheet_id AS "taskSheetId",
              (SELECT v.usual_minutes FROM task_sheet_version v WHERE v.task_sheet_id = r.task_sheet_id ORDER BY v.no DESC LIMIT 1) AS "expectedMinutes"
         FROM upkeep_rule r
        WHERE ended_on IS NULL AND (skid_id = $1 OR (skid_id IS NULL AND rule_set_version_id = (SELECT rule_set_version_id FROM skid WHERE id = $1)))
        ORDER BY position_kind, task, skid_id NULLS LAST, id`,
      [skidId],
    );
    return rows;
  }

  /** The latest outlook of each limit. */
  async outlooks(skidNo: number): Promise<LatestOutlook[]> {
    const { rows } = await this.database.pool.query<LatestOutlook>(
      `SELECT DISTINCT ON (o.subject, o.limit_kind) o.id::text, o.subject, o.limit_kind AS "limitKind", o.kind, to_char(o.origin_day, 'YYYY-MM-DD') AS "originDay",
              o.p10_days AS "p10Days", o.p50_days AS "p50Days", o.reason, o.data_used AS "dataUsed"
         FROM outlook o WHERE o.skid_no = $1 AND (o.part_id IS NULL OR EXISTS (SELECT 1 FROM fitting f WHERE f.part_id = o.part_id AND f.removed_at IS NULL))
        ORDER BY o.subject, o.limit_kind, o.origin_day DESC, o.id DESC`,
      [skidNo],
    );
    return rows;
  }

  /** Puts the dues of a skid in the place of those that were stored. */
  async replaceDues(skid: { no: number; clientId: string }, dues: readonly DueToStore[], now: Date): Promise<void> {
    await this.database.prisma.$transaction([
      this.database.prisma.due.deleteMany({ where: { skidNo: skid.no } }),
      this.database.prisma.due.createMany({
        data: dues.map(({ outlookId, computedFrom, earliestOn, bestOn, latestOn, ...due }) => ({
          ...due,
          clientId: skid.clientId,
          skidNo: skid.no,
          outlookId: outlookId === null ? null : BigInt(outlookId),
          computedFrom: [...computedFrom],
          earliestOn: toDate(earliestOn),
          bestOn: toDate(bestOn),
          latestOn: toDate(latestOn),
          computedAt: now,
        })),
      }),
    ]);
  }
}

function toDate(day: string | null): Date | null {
  return day === null ? null : new Date(`${day}T00:00:00Z`);
}
