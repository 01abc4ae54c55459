import { Injectable } from '@nestjs/common';
import { group } from 'd3-array';
import { Database } from '../../app/index.js';
import type { OutlookDay } from '../core/skid/known-of-skid.js';
import type { MembraneRecord } from '../core/skid/learned-membranes.js';
import { MEMBRANE_CHANGES } from './membrane-changes.sql.js';

/** A fleet teaches little more by further skids, or by days when the plant was another one. */
const MOST_SKIDS = 12;
const MOST_DAYS = 540;

interface UnitRow {
  readonly unit: string;
  readonly no: number;
  readonly areaM2: number;
  readonly cleans: string[];
  readonly changes: string[];
}

@Injectable()
export class MembraneRecordsRepository {
  constructor(private readonly database: Database) {}

  /** The records of the skids with the most days of permeability, each back from its own last day: two queries. */
  async ofFleet(): Promise<MembraneRecord[]> {
    const { rows: units } = await this.database.pool.query<UnitRow>(
      `SELECT s.id AS unit, s.no, (SELECT a.area_m2 FROM skid_area a WHERE a.skid_id = s.id ORDER BY a.from_day DESC LIMIT 1) AS "areaM2",
              ARRAY(SELECT DISTINCT to_char(c.at AT TIME ZONE site.time_zone, 'YYYY-MM-DD') FROM clean c WHERE c.skid_id = s.id AND c.kind = 'CIP' ORDER BY 1) AS cleans, ${MEMBRANE_CHANGES} AS changes
         FROM skid s JOIN site ON site.id = s.site_id
         JOIN (SELECT skid_no, count(*) AS days FROM daily_condition WHERE permeability IS NOT NULL GROUP BY skid_no) d ON d.skid_no = s.no
        WHERE s.ended_on IS NULL AND EXISTS (SELECT 1 FROM skid_area a WHERE a.skid_id = s.id) ORDER BY d.days DESC, s.no LIMIT ${MOST_SKIDS}`,
    );
    const { rows: days } = await this.database.pool.query<OutlookDay & { no: number }>(
      `SELECT skid_no AS no, to_char(day, 'YYYY-MM-DD') AS day, filtrate_m3 AS "filtrateM3", permeability, flux_lmh AS "fluxLmh", cartridge_dp_kpa AS "cartridgeDpKpa"
         FROM (SELECT *, max(day) OVER (PARTITION BY skid_no) AS last FROM daily_condition WHERE skid_no = ANY($1)) d WHERE day > last - ${MOST_DAYS} ORDER BY skid_no, day`,
      [units.map(({ no }) => no)],
    );
    const daysOf = group(days, ({ no }) => no);
    return units.map(({ no, ...unit }) => ({ ...unit, days: daysOf.get(no) ?? [] }));
  }
}
