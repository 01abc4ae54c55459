import { Injectable } from '@nestjs/common';
import { type Caller, Database } from '../app/index.js';
import type { Standing } from '../shared/standing.js';
import { STANDING_RANK_SQL, STANDING_SQL } from './standing-sql.js';

export interface DueFilter {
  readonly skidId: string | undefined;
  readonly clientId: string | undefined;
  readonly standing: Standing | undefined;
  readonly find: string | undefined;
  readonly limit: number;
  readonly offset: number;
  readonly now: Date;
}

export interface DueRow {
  readonly id: string;
  readonly skidId: string;
  readonly skidName: string;
  readonly siteName: string;
  readonly clientName: string;
  readonly positionName: string | null;
  readonly task: string;
  readonly standing: Standing;
  readonly earliestOn: string | null;
  readonly bestOn: string | null;
  readonly latestOn: string | null;
  readonly limit: string;
  readonly reason: string;
  readonly computedFrom: { name: string; value: string }[];
  readonly expectedMinutes: number | null;
  readonly taskSheetId: string | null;
  readonly total: number;
}

export interface SheetPartRow {
  readonly taskSheetId: string;
  readonly itemId: string;
  readonly code: string;
  readonly name: string;
  readonly quantity: string;
  readonly unit: string;
}

/** Dues as they were last computed, judged by the day at the site. */
@Injectable()
export class DueListRepository {
  constructor(private readonly database: Database) {}

  /** One page of the due list, most urgent first: one query. */
  page(caller: Caller, filter: DueFilter): Promise<DueRow[]> {
    const like = filter.find ? `%${filter.find.replace(/[\\%_]/g, '\\$&')}%` : null;
    return this.database.readFor(caller, (reader) =>
      reader.$queryRawUnsafe<DueRow[]>(
        `WITH dated AS (
           SELECT d.*, s.id AS skid_id, s.name AS skid_name, site.name AS site_name, client.name AS client_name, p.name AS position_name,
                  ($1::timestamptz AT TIME ZONE site.time_zone)::date AS today
             FROM due d JOIN skid s ON s.no = d.skid_no JOIN site ON site.id = s.site_id JOIN client ON client.id = s.client_id LEFT JOIN position p ON p.id = d.position_id
            WHERE s.ended_on IS NULL
         ), judged AS (SELECT dated.*, ${STANDING_SQL} AS standing FROM dated)
         SELECT id, skid_id AS "skidId", skid_name AS "skidName", site_name AS "siteName", client_name AS "clientName", position_name AS "positionName", task, standing,
                to_char(earliest_on, 'YYYY-MM-DD') AS "earliestOn", to_char(best_on, 'YYYY-MM-DD') AS "bestOn", to_char(latest_on, 'YYYY-MM-DD') AS "latestOn",
                "limit", reason, computed_from AS "computedFrom", expected_minutes AS "expectedMinutes", task_sheet_id AS "taskSheetId", (count(*) OVER ())::int AS total
           FROM judged
          WHERE ($2::uuid IS NULL OR skid_id = $2) AND ($3::uuid IS NULL OR client_id = $3) AND ($4::text IS NULL OR standing = $4)
            AND ($5::text IS NULL OR concat_ws(' ', task, skid_name, site_name, client_name, position_name) ILIKE $5)
          ORDER BY ${STANDING_RANK_SQL}, best_on NULLS LAST, site_name, skid_name, task, id LIMIT $6::int OFFSET $7::int`,
        filter.now,
        filter.skidId ?? null,
        filter.clientId ?? null,
        filter.standing ?? null,
        like,
        filter.limit + 1,
        filter.offset,
      ),
    );
  }

  /** The parts that the latest task sheets ask for: one query for the whole page. Clients see the work, not the store. */
  async partsOf(taskSheetIds: readonly string[]): Promise<SheetPartRow[]> {
    if (taskSheetIds.length === 0) return [];
    return this.database.prisma.$queryRaw<SheetPartRow[]>`
      SELECT v.task_sheet_id AS "taskSheetId", i.id AS "itemId", i.code, i.name, trim_scale(p.quantity)::text AS quantity, i.unit
        FROM (SELECT DISTINCT ON (task_sheet_id) id, task_sheet_id FROM task_sheet_version WHERE task_sheet_id = ANY(${[...taskSheetIds]}::uuid[])
               ORDER BY task_sheet_id, no DESC) v
        JOIN task_sheet_part p ON p.version_id = v.id JOIN item i ON i.id = p.item_id ORDER BY i.code`;
  }
}
