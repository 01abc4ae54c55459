import { Injectable } from '@nestjs/common';
import { type Caller, Database } from '../../app/index.js';
import type { ForecastKind } from './record.dto.js';

export interface ScoreRow {
  readonly skidId: string;
  readonly skidName: string;
  readonly subject: string;
  readonly limitKind: ForecastKind;
  readonly life: string;
  readonly kind: 'scored' | 'early change' | 'open';
  /** As the forecast said at its origin */
  readonly p50Days: number | null;
  readonly truthDays: number;
  readonly errorDays: number | null;
  readonly inside: boolean | null;
  readonly saidTooEarly: boolean;
  /** Made later, from what had been measured until its day */
  readonly afterwards: boolean;
}

@Injectable()
export class RecordRepository {
  constructor(private readonly database: Database) {}

  /** One query, whatever is asked for. */
  scores(caller: Caller, { skidId, clientId, limitKind }: { skidId?: string; clientId?: string; limitKind?: ForecastKind }): Promise<ScoreRow[]> {
    return this.database.readFor(
      caller,
      (reader) => reader.$queryRaw<ScoreRow[]>`
        SELECT s.id AS "skidId", s.name AS "skidName", coalesce(p.name, 'Membranes') AS subject, o.limit_kind AS "limitKind", o.skid_no || ' ' || x.life AS life, x.kind, o.p50_days AS "p50Days", x.truth_days AS "truthDays",
               x.error_days AS "errorDays", x.inside, x.said_too_early AS "saidTooEarly", o.afterwards
          FROM outlook_score x JOIN outlook o ON o.id = x.outlook_id JOIN skid s ON s.no = o.skid_no LEFT JOIN position p ON p.id::text = o.subject
         WHERE (${skidId ?? null}::uuid IS NULL OR s.id = ${skidId ?? null}::uuid) AND (${clientId ?? null}::uuid IS NULL OR s.client_id = ${clientId ?? null}::uuid)
           AND (${limitKind ?? null}::text IS NULL OR o.limit_kind = ${limitKind ?? null}::text)
         ORDER BY x.outlook_id`,
    );
  }
}
