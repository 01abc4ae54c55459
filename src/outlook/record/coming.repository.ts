import { Injectable } from '@nestjs/common';
import { type Caller, Database, likeOf } from '../../app/index.js';
import type { LimitOfPart } from '../core/modules/module-outlook.js';
import type { ForecastKind } from './record.dto.js';

export interface ComingRow {
  readonly outlookId: string;
  readonly skidId: string;
  readonly skidName: string;
  readonly siteName: string;
  readonly clientName: string;
  readonly subject: string;
  readonly limitKind: ForecastKind;
  readonly kind: 'outlook' | 'limit-met' | 'too-little-data';
  readonly originDay: string;
  readonly p10Days: number | null;
  readonly p50Days: number | null;
  readonly p90Days: number | null;
  readonly reason: string;
  readonly limits: readonly LimitOfPart[];
  readonly total: number;
}

export interface ComingFilter {
  readonly limit: number;
  readonly offset: number;
  readonly find: string | undefined;
  readonly clientId: string | undefined;
  readonly limitKind: ForecastKind | undefined;
}

@Injectable()
export class ComingRepository {
  constructor(private readonly database: Database) {}

  /**
   * The present forecasts of skids in service, those that come first on top: met already, then by the day that is as likely before as after, then by the early end of the range.
   * Those with too little data come last, since nothing can be said of when. One query; a skid's present forecasts are those of its latest reading.
   */
  page(caller: Caller, { limit, offset, find, clientId, limitKind }: ComingFilter): Promise<ComingRow[]> {
    const like = likeOf(find);
    return this.database.readFor(
      caller,
      (reader) => reader.$queryRaw<ComingRow[]>`
        SELECT o.id::text AS "outlookId", s.id AS "skidId", s.name AS "skidName", site.name AS "siteName", client.name AS "clientName", coalesce(p.name, 'Membranes') AS subject, o.limit_kind AS "limitKind", o.kind,
               to_char(o.origin_day, 'YYYY-MM-DD') AS "originDay", o.p10_days AS "p10Days", o.p50_days AS "p50Days", o.p90_days AS "p90Days", o.reason, o.limits,
               count(*) OVER ()::int AS total
          FROM skid s JOIN site ON site.id = s.site_id JOIN client ON client.id = s.client_id JOIN skid_condition k ON k.skid_no = s.no
          JOIN outlook o ON o.skid_no = s.no AND o.origin_day = (k.last_reading_at AT TIME ZONE site.time_zone)::date
          LEFT JOIN position p ON p.id::text = o.subject
         WHERE s.ended_on IS NULL AND s.service_state = 'in service' AND p.ended_on IS NULL
           AND (${clientId ?? null}::uuid IS NULL OR s.client_id = ${clientId ?? null}::uuid) AND (${limitKind ?? null}::text IS NULL OR o.limit_kind = ${limitKind ?? null}::text)
           AND (${like}::text IS NULL OR concat_ws(' ', s.name, site.name, client.name, p.name) ILIKE ${like}::text)
         ORDER BY CASE o.kind WHEN 'limit-met' THEN 0 WHEN 'outlook' THEN 1 ELSE 2 END, o.origin_day + coalesce(o.p50_days, 9999) * interval '1 day',
                  o.origin_day + coalesce(o.p10_days, 9999) * interval '1 day', site.name, s.name, o.id
         LIMIT ${limit + 1} OFFSET ${offset}`,
    );
  }
}
