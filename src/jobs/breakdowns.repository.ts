import { Injectable } from '@nestjs/common';
import { type Caller, Database, likeOf, type Reader } from '../app/index.js';
import { SEVERITIES, type Severity } from '../shared/work.js';
import type { BreakdownView } from './breakdowns.dto.js';

export interface BreakdownFilter {
  readonly open: boolean | undefined;
  readonly severity: Severity | undefined;
  readonly skidId: string | undefined;
  readonly clientId: string | undefined;
  readonly find: string | undefined;
  readonly limit: number;
  readonly offset: number;
}

export type BreakdownRow = Omit<BreakdownView, 'downMinutes' | 'downTime' | 'mechanismInWords'> & { readonly takenById: string | null; readonly total: number };

const SEVERITY_RANK_SQL = `array_position(ARRAY[${SEVERITIES.map((severity) => `'${severity}'`).join(', ')}], b.severity)`;
const ENDED_SQL = `(j.state IN ('finished', 'dropped'))`;

const SELECT = `
  SELECT j.id AS "jobId", j.no, j.version, j.state, j.title, j.request, j.created_at AS "createdAt", j.created_by AS "createdBy", j.finished_at AS "finishedAt",
         s.id AS "skidId", s.name AS "skidName", site.name AS "siteName", client.name AS "clientName", site.time_zone AS "timeZone",
         b.severity, b.source, b.noticed_at AS "noticedAt", b.down_from AS "downFrom", b.restored_at AS "restoredAt", b.repair_minutes AS "repairMinutes",
         b.position_id AS "positionId", p.name AS "positionName", b.taken_by_id AS "takenById", b.taken_by AS "takenBy", b.taken_at AS "takenAt", b.telephone, b.ended_by AS "endedBy",
         b.failure_mode AS "failureMode", b.mechanism, b.cause, b.remedy, to_char(v.on_day, 'YYYY-MM-DD') AS "visitOn", (count(*) OVER ())::int AS total
    FROM breakdown b JOIN job j ON j.id = b.job_id JOIN skid s ON s.id = b.skid_id JOIN site ON site.id = s.site_id JOIN client ON client.id = b.client_id
    LEFT JOIN position p ON p.id = b.position_id LEFT JOIN visit v ON v.id = j.visit_id`;

@Injectable()
export class BreakdownsRepository {
  constructor(private readonly database: Database) {}

  /** Those that are open first, the worst and then the latest of them first: one query. */
  page(caller: Caller, { open, severity, skidId, clientId, find, limit, offset }: BreakdownFilter): Promise<BreakdownRow[]> {
    const like = likeOf(find);
    return this.database.readFor(caller, (reader) =>
      reader.$queryRawUnsafe<BreakdownRow[]>(
        `${SELECT}
          WHERE ($1::boolean IS NULL OR ${ENDED_SQL} <> $1) AND ($2::text IS NULL OR b.severity = $2) AND ($3::uuid IS NULL OR b.skid_id = $3)
            AND ($4::uuid IS NULL OR b.client_id = $4) AND ($5::text IS NULL OR concat_ws(' ', j.title, j.request, s.name, site.name, client.name) ILIKE $5)
          ORDER BY ${ENDED_SQL}, CASE WHEN ${ENDED_SQL} THEN 0 ELSE ${SEVERITY_RANK_SQL} END, b.noticed_at DESC, j.no DESC LIMIT $6::int OFFSET $7::int`,
        open ?? null,
        severity ?? null,
        skidId ?? null,
        clientId ?? null,
        like,
        limit + 1,
        offset,
      ),
    );
  }
}

export async function findBreakdown(reader: Reader, jobId: string): Promise<BreakdownRow | undefined> {
  const [row] = await reader.$queryRawUnsafe<BreakdownRow[]>(`${SELECT} WHERE j.id = $1::uuid`, jobId);
  return row;
}
