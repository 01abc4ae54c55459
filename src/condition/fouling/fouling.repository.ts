import { Injectable } from '@nestjs/common';
import { type Caller, Database } from '../../app/index.js';
import type { Baselines } from '../core/baseline.js';

export interface FoulingSkidRow {
  readonly no: number;
  readonly referenceC: number;
  /** A recovery clean is due at this share of the permeability when new */
  readonly limitFraction: number;
  readonly timeZone: string;
  readonly baselines: Baselines | null;
  readonly areaM2: number | null;
}

export interface FoulingDayRow {
  readonly day: string;
  readonly startLmhBar: number | null;
  readonly meanLmhBar: number | null;
  readonly filtrateM3: number | null;
}

export interface FoulingCleanRow {
  readonly kind: 'CEB' | 'CIP';
  readonly day: string;
  readonly chemical: string;
  readonly mgL: number | null;
  readonly minutes: number | null;
}

@Injectable()
export class FoulingRepository {
  constructor(private readonly database: Database) {}

  /** Three queries. */
  read(caller: Caller, skidId: string): Promise<{ skid: FoulingSkidRow; days: FoulingDayRow[]; cleans: FoulingCleanRow[] } | undefined> {
    return this.database.readFor(caller, async (reader) => {
      const [skid] = await reader.$queryRaw<FoulingSkidRow[]>`
        SELECT s.no, s.reference_c AS "referenceC", s.permeability_limit_fraction AS "limitFraction", site.time_zone AS "timeZone", k.baselines,
               (SELECT a.area_m2 FROM skid_area a WHERE a.skid_id = s.id ORDER BY a.from_day DESC LIMIT 1) AS "areaM2"
          FROM skid s JOIN site ON site.id = s.site_id LEFT JOIN skid_condition k ON k.skid_no = s.no WHERE s.id = ${skidId}::uuid`;
      if (skid === undefined) return undefined;
      const days = await reader.$queryRaw<FoulingDayRow[]>`
        SELECT to_char(day, 'YYYY-MM-DD') AS day, permeability_start AS "startLmhBar", permeability AS "meanLmhBar", filtrate_m3 AS "filtrateM3"
          FROM daily_condition WHERE skid_no = ${skid.no} ORDER BY day`;
      const cleans = await reader.$queryRaw<FoulingCleanRow[]>`
        SELECT kind, to_char(at AT TIME ZONE ${skid.timeZone}, 'YYYY-MM-DD') AS day, chemical, strength_mg_l AS "mgL", contact_minutes AS minutes
          FROM clean WHERE skid_id = ${skidId}::uuid ORDER BY at`;
      return { skid, days, cleans };
    });
  }

  async skidNo(skidId: string): Promise<number | undefined> {
    const { rows } = await this.database.pool.query<{ no: number }>('SELECT no FROM skid WHERE id = $1', [skidId]);
    return rows[0]?.no;
  }
}
