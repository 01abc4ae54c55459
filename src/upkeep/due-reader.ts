import { Injectable } from '@nestjs/common';
import type { Reader } from '../app/index.js';
import type { Day } from '../shared/day.js';

/** A due with what is needed to make work of it. */
export interface DueForWork {
  readonly id: string;
  readonly clientId: string;
  readonly siteId: string;
  readonly skidId: string;
  readonly skidName: string;
  readonly positionId: string | null;
  readonly positionName: string | null;
  readonly task: string;
  readonly taskSheetId: string | null;
  readonly ruleId: string | null;
  readonly outlookId: string | null;
  readonly reason: string;
  readonly earliestOn: Day | null;
  readonly bestOn: Day | null;
  readonly latestOn: Day | null;
  readonly expectedMinutes: number | null;
}

/** Dues for the stage that makes jobs of them. */
@Injectable()
export class DueReader {
  /** In one query; dues that are no longer there are left out. */
  async byIds(reader: Reader, ids: readonly string[]): Promise<DueForWork[]> {
    if (ids.length === 0) return [];
    return reader.$queryRaw<DueForWork[]>`
      SELECT d.id, d.client_id AS "clientId", s.site_id AS "siteId", s.id AS "skidId", s.name AS "skidName", d.position_id AS "positionId", p.name AS "positionName", d.task,
             d.task_sheet_id AS "taskSheetId", d.rule_id AS "ruleId", d.outlook_id::text AS "outlookId", d.reason, to_char(d.earliest_on, 'YYYY-MM-DD') AS "earliestOn",
             to_char(d.best_on, 'YYYY-MM-DD') AS "bestOn", to_char(d.latest_on, 'YYYY-MM-DD') AS "latestOn", d.expected_minutes AS "expectedMinutes"
        FROM due d JOIN skid s ON s.no = d.skid_no LEFT JOIN position p ON p.id = d.position_id
       WHERE d.id = ANY(${[...new Set(ids)]}::uuid[]) ORDER BY s.name, d.best_on NULLS LAST, d.task, d.id`;
  }
}
