import { Injectable } from '@nestjs/common';
import { Database } from '../app/index.js';
import type { Baselines } from '../condition/core/baseline.js';
import type { ConditionFigure, OutlookLimit, WhileLaidUp } from '../shared/upkeep-terms.js';

/** A position that holds a part, or the skid as a whole, with what rules need to know of it. */
export interface UpkeepPlace {
  /** Null: the skid as a whole */
  readonly id: string | null;
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
  readonly outlookLimit: OutlookLimit | null;
  readonly conditionFigure: ConditionFigure | null;
  readonly conditionAbove: number | null;
  readonly conditionBelow: number | null;
  readonly base: 'floating' | 'fixed';
  readonly graceDays: number | null;
  readonly whileLaidUp: WhileLaidUp;
  readonly contains: string[];
  readonly note: string;
  readonly taskSheetId: string;
  readonly sheetKind: string;
  readonly usualMinutes: number;
  readonly crew: number;
}

export interface OverrideRow {
  readonly id: string;
  readonly positionId: string | null;
  readonly positionKind: string;
  readonly task: string;
  readonly off: boolean;
  readonly runHours: number | null;
  readonly starts: number | null;
  readonly cycles: number | null;
  readonly days: number | null;
  readonly graceDays: number | null;
  readonly reason: string;
}

export interface UpkeepSkid {
  readonly kind: 'skid' | 'shared';
  readonly timeZone: string;
  readonly today: string;
  readonly serviceState: string;
  readonly commissionedOn: string | null;
  readonly ruleSetVersionId: string | null;
  readonly baselines: Baselines | null;
}

export interface LatestOutlook {
  readonly id: string;
  readonly subject: string;
  readonly limitKind: OutlookLimit;
  readonly kind: 'outlook' | 'limit-met' | 'too-little-data';
  readonly originDay: string;
  readonly p10Days: number | null;
  readonly p50Days: number | null;
  readonly reason: string;
  readonly dataUsed: string[];
}

export interface SheetOfTask {
  readonly id: string;
  readonly task: string;
  readonly kind: string;
  readonly usualMinutes: number;
  readonly crew: number;
}

export interface DailyFigures {
  readonly day: string;
  readonly permeability: number | null;
  readonly tmpKpa: number | null;
  readonly cartridgeDpKpa: number | null;
  readonly feedTurbidityNtu: number | null;
}

/** A test, a calibration or a part fitted: work that has a record of its own. */
export interface ProofRow {
  readonly kind: 'integrity test' | 'calibration' | 'part fitted';
  readonly positionId: string | null;
  readonly at: Date;
}

const RULE_COLUMNS = `r.id, r.task, r.position_kind AS "positionKind", r.skid_id AS "skidId", r.run_hours AS "runHours", r.starts, r.cycles, r.days, r.outlook_limit AS "outlookLimit",
  r.condition_figure AS "conditionFigure", r.condition_above AS "conditionAbove", r.condition_below AS "conditionBelow", r.base, r.grace_days AS "graceDays",
  r.while_laid_up AS "whileLaidUp", r.contains, r.note, r.task_sheet_id AS "taskSheetId", s.kind AS "sheetKind", v.usual_minutes AS "usualMinutes", v.crew`;
const LATEST_SHEET = `CROSS JOIN LATERAL (SELECT usual_minutes, crew FROM task_sheet_version WHERE task_sheet_id = s.id ORDER BY no DESC LIMIT 1) v`;
/** Days of condition that a limit is looked for in. */
const CONDITION_DAYS = 400;

/** Facts and earlier conclusions of one skid, as rules need them. */
@Injectable()
export class UpkeepRepository {
  constructor(private readonly database: Database) {}

  async skid(skidId: string, now: Date): Promise<UpkeepSkid | undefined> {
    const [row] = await this.rows<UpkeepSkid>(
      `SELECT s.kind, site.time_zone AS "timeZone", to_char(($2::timestamptz AT TIME ZONE site.time_zone)::date, 'YYYY-MM-DD') AS today, s.service_state AS "serviceState",
              to_char(s.commissioned_on, 'YYYY-MM-DD') AS "commissionedOn", s.rule_set_version_id AS "ruleSetVersionId", c.baselines
         FROM skid s JOIN site ON site.id = s.site_id LEFT JOIN skid_condition c ON c.skid_no = s.no WHERE s.id = $1 AND s.ended_on IS NULL`,
      [skidId, now],
    );
    return row;
  }

  positions(skidId: string): Promise<UpkeepPlace[]> {
    return this.rows<UpkeepPlace>(
      `SELECT p.id, p.kind, p.name, f.fitted_at AS "fittedAt" FROM position p LEFT JOIN fitting f ON f.position_id = p.id AND f.removed_at IS NULL
        WHERE p.skid_id = $1 AND p.ended_on IS NULL ORDER BY p.name`,
      [skidId],
    );
  }

  /** The rules of a version of a set, and those of the skid alone. */
  rules(skidId: string, ruleSetVersionId: string | null): Promise<UpkeepRuleRow[]> {
    return this.rows<UpkeepRuleRow>(
      `SELECT ${RULE_COLUMNS} FROM upkeep_rule r JOIN task_sheet s ON s.id = r.task_sheet_id ${LATEST_SHEET}
        WHERE r.ended_on IS NULL AND (r.skid_id = $1 OR (r.skid_id IS NULL AND r.rule_set_version_id = $2)) ORDER BY r.position_kind, r.task, r.id`,
      [skidId, ruleSetVersionId],
    );
  }

  overrides(skidId: string): Promise<OverrideRow[]> {
    return this.rows<OverrideRow>(
      `SELECT id, position_id AS "positionId", position_kind AS "positionKind", task, off, run_hours AS "runHours", starts, cycles, days, grace_days AS "graceDays", reason
         FROM rule_override WHERE skid_id = $1 AND ended_at IS NULL ORDER BY at, id`,
      [skidId],
    );
  }

  /** The latest outlook of each limit. */
  outlooks(skidNo: number): Promise<LatestOutlook[]> {
    return this.rows<LatestOutlook>(
      `SELECT DISTINCT ON (o.subject, o.limit_kind) o.id::text, o.subject, o.limit_kind AS "limitKind", o.kind, to_char(o.origin_day, 'YYYY-MM-DD') AS "originDay",
              o.p10_days AS "p10Days", o.p50_days AS "p50Days", o.reason, o.data_used AS "dataUsed"
         FROM outlook o WHERE o.skid_no = $1 AND o.limit_kind <> 'life' AND (o.part_id IS NULL OR EXISTS (SELECT 1 FROM fitting f WHERE f.part_id = o.part_id AND f.removed_at IS NULL))
        ORDER BY o.subject, o.limit_kind, o.origin_day DESC, o.id DESC`,
      [skidNo],
    );
  }

  stateChanges(skidId: string): Promise<{ at: Date; state: string }[]> {
    return this.rows(`SELECT at, state FROM service_state_change WHERE skid_id = $1 ORDER BY at, id`, [skidId]);
  }

  dailyFigures(skidNo: number, today: string): Promise<DailyFigures[]> {
    return this.rows<DailyFigures>(
      `SELECT to_char(day, 'YYYY-MM-DD') AS day, permeability, tmp_kpa AS "tmpKpa", cartridge_dp_kpa AS "cartridgeDpKpa", feed_turbidity_ntu AS "feedTurbidityNtu"
         FROM daily_condition WHERE skid_no = $1 AND day > $2::date - ${CONDITION_DAYS} ORDER BY day`,
      [skidNo, today],
    );
  }

  /** In order of time. */
  proofs(skidId: string): Promise<ProofRow[]> {
    return this.rows<ProofRow>(
      `SELECT 'integrity test' AS kind, NULL::uuid AS "positionId", at FROM integrity_test WHERE skid_id = $1 AND outcome <> 'not counted'
       UNION ALL SELECT 'calibration', position_id, at FROM calibration WHERE skid_id = $1
       UNION ALL SELECT 'part fitted', f.position_id, f.fitted_at FROM fitting f JOIN position p ON p.id = f.position_id WHERE p.skid_id = $1
       ORDER BY at`,
      [skidId],
    );
  }

  /** The sheets of these tasks, as new work follows them. */
  sheetsOf(tasks: readonly string[]): Promise<SheetOfTask[]> {
    return this.rows<SheetOfTask>(
      `SELECT s.id, s.task, s.kind, v.usual_minutes AS "usualMinutes", v.crew FROM task_sheet s ${LATEST_SHEET} WHERE s.task = ANY($1) AND s.ended_on IS NULL`,
      [tasks],
    );
  }

  private async rows<T extends object>(sql: string, values: unknown[]): Promise<T[]> {
    return (await this.database.pool.query<T>(sql, values)).rows;
  }
}
