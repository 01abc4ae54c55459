import { Injectable } from '@nestjs/common';
import { Database } from '../../app/index.js';
import type { PathPoint } from '../core/outlook.js';

export interface WaitingRow {
  readonly outlookId: string;
  readonly subject: string;
  readonly limitKind: string;
  readonly kind: 'outlook' | 'limit-met' | 'too-little-data';
  readonly originDay: string;
  readonly p90Days: number | null;
  readonly metByDay: number[];
  readonly path: PathPoint[];
  readonly firstValue: number | null;
  /** Since the part was fitted, the membranes cleaned or the skid commissioned; null: none of them is known */
  readonly ageDays: number | null;
  readonly dailyLoadM3: number | null;
  readonly ratedFlowM3h: number | null;
  readonly areaM2: number | null;
  readonly renewal: number | null;
  readonly unplanned: number | null;
  readonly energyKwh: number | null;
  readonly waterM3: number | null;
  readonly lostShare: number | null;
  readonly currency: string;
}

@Injectable()
export class WaitingRepository {
  constructor(private readonly database: Database) {}

  /** The outlooks of a skid's latest reading; undefined: no such skid. Two queries. */
  async presentOf(skidId: string): Promise<string[] | undefined> {
    const { pool } = this.database;
    const { rows: skids } = await pool.query('SELECT 1 FROM skid WHERE id = $1', [skidId]);
    if (skids.length === 0) return undefined;
    const { rows } = await pool.query<{ id: string }>(
      `SELECT o.id::text FROM skid s JOIN site ON site.id = s.site_id JOIN skid_condition k ON k.skid_no = s.no
         JOIN outlook o ON o.skid_no = s.no AND o.origin_day = (k.last_reading_at AT TIME ZONE site.time_zone)::date LEFT JOIN position p ON p.id::text = o.subject
        WHERE s.id = $1 AND s.service_state = 'in service' AND p.ended_on IS NULL ORDER BY o.id`,
      [skidId],
    );
    return rows.map(({ id }) => id);
  }

  /** What waiting is weighed by, for outlooks of any skids: one query. A part costs its item's moving average, a set as many of them as it has. */
  async facts(outlookIds: readonly string[]): Promise<WaitingRow[]> {
    const { rows } = await this.database.pool.query<WaitingRow>(
      `SELECT o.id::text AS "outlookId", coalesce(p.name, 'Membranes') AS subject, o.limit_kind AS "limitKind", o.kind, to_char(o.origin_day, 'YYYY-MM-DD') AS "originDay", o.p90_days AS "p90Days",
              o.met_by_day AS "metByDay", o.path, o.first_value AS "firstValue", k.daily_load_m3 AS "dailyLoadM3", s.rated_flow_m3h AS "ratedFlowM3h",
              (SELECT a.area_m2 FROM skid_area a WHERE a.skid_id = s.id ORDER BY a.from_day DESC LIMIT 1) AS "areaM2",
              o.origin_day - CASE WHEN o.limit_kind = 'permeability'
                THEN coalesce((SELECT max((c.at AT TIME ZONE site.time_zone)::date) FROM clean c WHERE c.skid_id = s.id AND c.kind = 'CIP' AND (c.at AT TIME ZONE site.time_zone)::date <= o.origin_day), s.commissioned_on)
                ELSE (SELECT max((f.fitted_at AT TIME ZONE site.time_zone)::date) FROM fitting f WHERE f.position_id::text = o.subject AND f.part_id = o.part_id AND f.removed_at IS NULL) END AS "ageDays",
              CASE WHEN o.limit_kind = 'permeability' THEN price.recovery_clean::float8 ELSE (cost.average * part.set_count)::float8 END AS renewal,
              price.unplanned::float8, price.energy_kwh::float8 AS "energyKwh", price.water_m3::float8 AS "waterM3", price.lost_share AS "lostShare",
              (SELECT reckoning_currency FROM store_setting) AS currency
         FROM outlook o JOIN skid s ON s.no = o.skid_no JOIN site ON site.id = s.site_id LEFT JOIN skid_condition k ON k.skid_no = s.no LEFT JOIN site_price price ON price.site_id = s.site_id
         LEFT JOIN position p ON p.id::text = o.subject LEFT JOIN part ON part.id = o.part_id LEFT JOIN item_cost cost ON cost.item_id = part.item_id
        WHERE o.id = ANY($1::bigint[]) ORDER BY o.id`,
      [outlookIds],
    );
    return rows;
  }
}
