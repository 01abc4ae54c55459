import { Injectable } from '@nestjs/common';
import { type Caller, Database } from '../../app/index.js';
import type { ForecastKind } from './record.dto.js';

export interface PastRow {
  readonly originOn: string;
  readonly subject: string;
  readonly p10Days: number | null;
  readonly p50Days: number | null;
  readonly p90Days: number | null;
  readonly came: 'scored' | 'early change' | 'open';
  readonly cameOn: string | null;
  readonly inside: boolean | null;
  readonly afterwards: boolean;
}

@Injectable()
export class PastRepository {
  constructor(private readonly database: Database) {}

  /** Forecasts of a skid that have a score, in the order of their days; undefined: no such skid. Two queries. */
  read(caller: Caller, skidId: string, limitKind: ForecastKind): Promise<PastRow[] | undefined> {
    return this.database.readFor(caller, async (reader) => {
      const [skid] = await reader.$queryRaw<{ no: number }[]>`SELECT no FROM skid WHERE id = ${skidId}::uuid`;
      if (skid === undefined) return undefined;
      return reader.$queryRaw<PastRow[]>`
        SELECT to_char(o.origin_day, 'YYYY-MM-DD') AS "originOn", coalesce(p.name, 'Membranes') AS subject, o.p10_days AS "p10Days", o.p50_days AS "p50Days", o.p90_days AS "p90Days",
               x.kind AS came, to_char(x.ended_on, 'YYYY-MM-DD') AS "cameOn", x.inside, o.afterwards
          FROM outlook o JOIN outlook_score x ON x.outlook_id = o.id LEFT JOIN position p ON p.id::text = o.subject
         WHERE o.skid_no = ${skid.no} AND o.limit_kind = ${limitKind} ORDER BY o.origin_day, o.id`;
    });
  }
}
