import { Injectable } from '@nestjs/common';
import { type Caller, Database } from '../app/index.js';
import { TANK_SHORT_ON_SQL } from '../chemicals/index.js';
import type { Standing } from '../shared/standing.js';
import { STANDING_RANK_SQL, STANDING_SQL } from '../upkeep/index.js';

export interface FleetFilter {
  readonly standing: Standing | undefined;
  readonly clientId: string | undefined;
  readonly find: string | undefined;
  readonly skidId?: string;
  readonly limit: number;
  readonly offset: number;
  readonly now: Date;
}

export interface FleetRow {
  readonly skidId: string;
  readonly name: string;
  readonly siteName: string;
  readonly clientName: string;
  readonly kind: 'skid' | 'shared';
  readonly serviceState: string;
  readonly water: string;
  readonly timeZone: string;
  readonly standing: Standing;
  /** No reading for too long to say how it is */
  readonly silent: boolean;
  readonly task: string | null;
  readonly bestOn: string | null;
  readonly reason: string | null;
  readonly lastReadingAt: Date | null;
  readonly dailyLoadM3: number | null;
  readonly hours30Days: number | null;
  readonly total: number;
}

/** After this many days without a reading a skid is silent: a week for a logged plant, three for one read by hand once a week. */
const SILENT_DAYS = { logged: 7, byHand: 21 };

/**
 * Every skid that the caller may see with its most urgent need: one that is overdue, else the one whose day comes first. Its standing is the skid's, unless the
 * plant is silent. Materialised, since the page and the counts both read it.
 */
const FLEET = `
  WITH zoned AS (
    SELECT s.*, site.name AS site_name, site.time_zone, client.name AS client_name, ($1::timestamptz AT TIME ZONE site.time_zone)::date AS today
      FROM skid s JOIN site ON site.id = s.site_id JOIN client ON client.id = s.client_id
     WHERE s.ended_on IS NULL AND s.service_state <> 'retired'
  ), need AS (
    SELECT d.skid_no, d.task, d.best_on, d.latest_on, d.reason FROM due d
    UNION ALL
    SELECT s.no, 'Refill ' || t.name, ${TANK_SHORT_ON_SQL}, c.run_out_on, c.reason
      FROM tank_cover c JOIN tank t ON t.id = c.tank_id JOIN skid s ON s.id = t.skid_id WHERE c.run_out_on IS NOT NULL AND t.ended_on IS NULL
  ), first AS (
    SELECT DISTINCT ON (n.skid_no) n.*, zoned.today FROM need n JOIN zoned ON zoned.no = n.skid_no
     ORDER BY n.skid_no, coalesce(n.latest_on, n.best_on) < zoned.today DESC NULLS LAST, n.best_on NULLS LAST, n.task
  ), judged AS (SELECT first.*, ${STANDING_SQL} AS standing FROM first),
  fleet AS MATERIALIZED (
    SELECT z.id AS "skidId", z.no, z.name, z.site_name AS "siteName", z.client_name AS "clientName", z.client_id, z.kind, z.service_state AS "serviceState", z.water,
           z.time_zone AS "timeZone", f.task, to_char(f.best_on, 'YYYY-MM-DD') AS "bestOn", f.reason, k.last_reading_at AS "lastReadingAt", k.daily_load_m3 AS "dailyLoadM3",
           silent.is_silent AS silent,
           CASE WHEN f.standing IN ('overdue', 'due') THEN f.standing WHEN silent.is_silent THEN 'no-data' WHEN f.standing = 'watch' THEN 'watch' ELSE 'steady' END AS standing
      FROM zoned z LEFT JOIN judged f ON f.skid_no = z.no LEFT JOIN skid_condition k ON k.skid_no = z.no
        CROSS JOIN LATERAL (SELECT z.kind = 'skid' AND z.service_state = 'in service' AND (k.last_reading_at IS NULL OR k.last_reading_at < $1::timestamptz -
          make_interval(days => CASE WHEN k.by_hand THEN ${SILENT_DAYS.byHand} ELSE ${SILENT_DAYS.logged} END)) AS is_silent) silent
  ), page AS (
    SELECT fleet.*, (SELECT sum(filtration_hours) FROM daily_condition d WHERE d.skid_no = fleet.no AND d.day > $1::timestamptz::date - 30) AS "hours30Days"
      FROM (
        SELECT fleet.*, (count(*) OVER ())::int AS total FROM fleet
         WHERE ($2::text IS NULL OR standing = $2) AND ($3::uuid IS NULL OR client_id = $3) AND ($4::text IS NULL OR concat_ws(' ', name, "siteName", "clientName") ILIKE $4)
           AND ($5::uuid IS NULL OR "skidId" = $5)
         ORDER BY ${STANDING_RANK_SQL}, "bestOn" NULLS LAST, "siteName", name, "skidId" LIMIT $6::int OFFSET $7::int
      ) fleet
  )
  SELECT coalesce((SELECT jsonb_agg(to_jsonb(page)) FROM page), '[]') AS rows,
         coalesce((SELECT jsonb_agg(to_jsonb(c)) FROM (SELECT standing, count(*)::int AS skids FROM fleet GROUP BY standing) c), '[]') AS counts`;

interface FleetAnswer {
  readonly rows: (Omit<FleetRow, 'lastReadingAt'> & { lastReadingAt: string | null })[];
  readonly counts: { standing: Standing; skids: number }[];
}

@Injectable()
export class PortalRepository {
  constructor(private readonly database: Database) {}

  /** One page of the fleet, most urgent first, and the number of skids of each standing: one query, whatever the size of the fleet. */
  async fleet(caller: Caller, filter: FleetFilter): Promise<{ rows: FleetRow[]; counts: FleetAnswer['counts'] }> {
    const like = filter.find ? `%${filter.find.replace(/[\\%_]/g, '\\$&')}%` : null;
    const { now, standing, clientId, skidId, limit, offset } = filter;
    const [answer] = await this.database.readFor(caller, (reader) =>
      reader.$queryRawUnsafe<FleetAnswer[]>(FLEET, now, standing ?? null, clientId ?? null, like, skidId ?? null, limit + 1, offset),
    );
    const rows = (answer?.rows ?? []).map((row) => ({ ...row, lastReadingAt: row.lastReadingAt === null ? null : new Date(row.lastReadingAt) }));
    return { rows, counts: answer?.counts ?? [] };
  }
}
