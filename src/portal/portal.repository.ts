import { Injectable } from '@nestjs/common';
import { type Caller, Database, likeOf } from '../app/index.js';
import { SKID_STANDING_SQL } from '../chemicals/index.js';
import type { Standing } from '../shared/standing.js';
import { STANDING_RANK_SQL } from '../upkeep/index.js';

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

/** One page of the fleet, and the counts of the whole. */
const FLEET = `
  WITH ${SKID_STANDING_SQL}, page AS (
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
    const like = likeOf(filter.find);
    const { now, standing, clientId, skidId, limit, offset } = filter;
    const [answer] = await this.database.readFor(caller, (reader) =>
      reader.$queryRawUnsafe<FleetAnswer[]>(FLEET, now, standing ?? null, clientId ?? null, like, skidId ?? null, limit + 1, offset),
    );
    const rows = (answer?.rows ?? []).map((row) => ({ ...row, lastReadingAt: row.lastReadingAt === null ? null : new Date(row.lastReadingAt) }));
    return { rows, counts: answer?.counts ?? [] };
  }
}
