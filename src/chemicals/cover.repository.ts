import { Injectable } from '@nestjs/common';
import { Database } from '../app/index.js';
import type { TankForm } from './core/tank-volume.js';

export interface TankRow extends TankForm {
  readonly id: string;
  readonly name: string;
  readonly chemical: string;
  readonly strengthGL: number | null;
  readonly storageC: number | null;
  readonly fedFromId: string | null;
  readonly timeZone: string;
}

/** Somebody who draws from a tank; `skidId` unset: outside the skids. */
export interface ConsumerRow {
  readonly tankId: string;
  readonly name: string;
  readonly skidId: string | null;
  readonly skidNo: number | null;
  readonly doseMgL: number | null;
  readonly litresPerCeb: number | null;
  readonly litresPerCip: number | null;
  readonly litresPerDay: number | null;
  readonly sdPerDay: number | null;
}

export interface FilteredRow {
  readonly skidNo: number;
  readonly day: string;
  readonly m3: number;
}

export interface CleanedRow {
  readonly skidId: string;
  readonly day: string;
  /** In small letters */
  readonly chemical: string;
  readonly cebs: number;
  readonly cips: number;
}

export interface AssayRow {
  readonly tankId: string;
  readonly at: Date;
  readonly strengthGL: number;
}

export interface CoverToStore {
  readonly tankId: string;
  readonly kind: 'cover' | 'too-little-data';
  readonly lastDipAt: Date | null;
  readonly volumeL: number | null;
  readonly strengthGL: number | null;
  readonly dailyUseL: number | null;
  readonly useSdL: number | null;
  readonly earlyDays: number | null;
  readonly likelyDays: number | null;
  readonly lateDays: number | null;
  readonly runOutOn: string | null;
  readonly expiresOn: string | null;
  readonly expectedUseL: number | null;
  readonly observedUseL: number | null;
  readonly balanceState: string;
  readonly balanceWords: string;
  readonly driftLDay: number | null;
  readonly reason: string;
  readonly dataUsed: readonly string[];
}

const TANK = `t.id, t.name, t.chemical, t.shape, t.diameter_m AS "diameterM", t.length_m AS "lengthM", t.width_m AS "widthM", t.height_m AS "heightM", t.capacity_l AS "capacityL",
  t.heel_l AS "heelL", t.level_table AS "levelTable", t.strength_g_l AS "strengthGL", t.storage_c AS "storageC", t.fed_from_id AS "fedFromId", site.time_zone AS "timeZone"`;
const FROM_TANK = 'FROM tank t JOIN skid s ON s.id = t.skid_id JOIN site ON site.id = s.site_id';

@Injectable()
export class CoverRepository {
  constructor(private readonly database: Database) {}

  /** The tanks of a skid, those of others that it draws from by name, and those from which its day tanks are filled. */
  tanksOfSkid(skidId: string): Promise<TankRow[]> {
    return this.rows<TankRow>(
      `SELECT ${TANK} ${FROM_TANK}
        WHERE t.ended_on IS NULL AND (t.skid_id = $1 OR t.id IN (SELECT tank_id FROM tank_user WHERE skid_id = $1 AND ended_on IS NULL)
              OR t.id IN (SELECT fed_from_id FROM tank WHERE skid_id = $1 AND ended_on IS NULL)) ORDER BY t.name, t.id`,
      [skidId],
    );
  }

  /** A tank that has not ended, with the day tanks that are filled from it. */
  tanksById(tankIds: readonly string[]): Promise<TankRow[]> {
    return this.rows<TankRow>(`SELECT ${TANK} ${FROM_TANK} WHERE t.ended_on IS NULL AND t.id = ANY($1::uuid[]) ORDER BY t.name, t.id`, [tankIds]);
  }

  dayTanksOf(tankIds: readonly string[]): Promise<{ id: string; fedFromId: string }[]> {
    return this.rows(`SELECT id, fed_from_id AS "fedFromId" FROM tank WHERE fed_from_id = ANY($1::uuid[]) AND ended_on IS NULL ORDER BY name, id`, [tankIds]);
  }

  /** The skid of a tank, and where it is shared equipment the skids that it serves, by the tank's own recipe; skids and others with a recipe of their own. */
  consumersOf(tankIds: readonly string[]): Promise<ConsumerRow[]> {
    return this.rows<ConsumerRow>(
      `WITH draws AS (
         SELECT id AS tank_id, skid_id FROM tank WHERE id = ANY($1::uuid[])
         UNION SELECT t.id, x.skid_id FROM tank t JOIN shared_service x ON x.shared_id = t.skid_id WHERE t.id = ANY($1::uuid[])
         UNION SELECT tank_id, skid_id FROM tank_user WHERE tank_id = ANY($1::uuid[]) AND skid_id IS NOT NULL AND ended_on IS NULL)
       SELECT t.id AS "tankId", coalesce(u.name, s.name) AS name, s.id AS "skidId", s.no AS "skidNo",
              CASE WHEN u.id IS NULL THEN t.dose_mg_l ELSE u.dose_mg_l END AS "doseMgL", CASE WHEN u.id IS NULL THEN t.litres_per_ceb ELSE u.litres_per_ceb END AS "litresPerCeb",
              CASE WHEN u.id IS NULL THEN t.litres_per_cip ELSE u.litres_per_cip END AS "litresPerCip", u.litres_per_day AS "litresPerDay", u.sd_per_day AS "sdPerDay"
         FROM draws d JOIN tank t ON t.id = d.tank_id JOIN skid s ON s.id = d.skid_id
              LEFT JOIN tank_user u ON u.tank_id = t.id AND u.skid_id = s.id AND u.ended_on IS NULL
       UNION ALL
       SELECT tank_id, name, NULL, NULL, NULL, NULL, NULL, litres_per_day, sd_per_day
         FROM tank_user WHERE tank_id = ANY($1::uuid[]) AND skid_id IS NULL AND ended_on IS NULL
       ORDER BY name`,
      [tankIds],
    );
  }

  filteredBy(skidNos: readonly number[], since: string): Promise<FilteredRow[]> {
    return this.rows<FilteredRow>(
      `SELECT skid_no AS "skidNo", to_char(day, 'YYYY-MM-DD') AS day, sum(filtrate_m3) AS m3 FROM daily_condition
        WHERE skid_no = ANY($1::int[]) AND day >= $2::date GROUP BY skid_no, day ORDER BY day`,
      [skidNos, since],
    );
  }

  cleanedBy(skidIds: readonly string[], timeZone: string, since: string): Promise<CleanedRow[]> {
    return this.rows<CleanedRow>(
      `SELECT skid_id AS "skidId", to_char((at AT TIME ZONE $2)::date, 'YYYY-MM-DD') AS day, lower(chemical) AS chemical,
              count(*) FILTER (WHERE kind = 'CEB')::int AS cebs, count(*) FILTER (WHERE kind = 'CIP')::int AS cips
         FROM clean WHERE skid_id = ANY($1::uuid[]) AND at >= $3::date GROUP BY 1, 2, 3 ORDER BY 2`,
      [skidIds, timeZone, since],
    );
  }

  assaysOf(tankIds: readonly string[]): Promise<AssayRow[]> {
    return this.rows<AssayRow>(`SELECT tank_id AS "tankId", at, strength_g_l AS "strengthGL" FROM tank_assay WHERE tank_id = ANY($1::uuid[]) ORDER BY at`, [
      tankIds,
    ]);
  }

  /** Two skids may say of the tank that they share at the same time: the later one stands. */
  async store(covers: readonly CoverToStore[], now: Date): Promise<void> {
    const columns = Object.keys(COLUMNS) as (keyof CoverToStore)[];
    const names = columns.map((field) => COLUMNS[field][0]);
    await this.database.pool.query(
      `INSERT INTO tank_cover (${names.join(', ')}, client_id, computed_at)
       SELECT ${columns.map((field) => `r."${field}"`).join(', ')}, t.client_id, $2
         FROM jsonb_to_recordset($1::jsonb) AS r(${columns.map((field) => `"${field}" ${COLUMNS[field][1]}`).join(', ')}) JOIN tank t ON t.id = r."tankId" ORDER BY t.id
       ON CONFLICT (tank_id) DO UPDATE SET ${[...names.slice(1), 'client_id', 'computed_at'].map((name) => `${name} = excluded.${name}`).join(', ')}`,
      [JSON.stringify(covers), now],
    );
  }

  private async rows<Row extends object>(text: string, values: unknown[]): Promise<Row[]> {
    return (await this.database.pool.query<Row>(text, values)).rows;
  }
}

const COLUMNS: Readonly<Record<keyof CoverToStore, readonly [column: string, type: string]>> = {
  tankId: ['tank_id', 'uuid'],
  kind: ['kind', 'text'],
  lastDipAt: ['last_dip_at', 'timestamptz'],
  volumeL: ['volume_l', 'float8'],
  strengthGL: ['strength_g_l', 'float8'],
  dailyUseL: ['daily_use_l', 'float8'],
  useSdL: ['use_sd_l', 'float8'],
  earlyDays: ['early_days', 'float8'],
  likelyDays: ['likely_days', 'float8'],
  lateDays: ['late_days', 'float8'],
  runOutOn: ['run_out_on', 'date'],
  expiresOn: ['expires_on', 'date'],
  expectedUseL: ['expected_use_l', 'float8'],
  observedUseL: ['observed_use_l', 'float8'],
  balanceState: ['balance_state', 'text'],
  balanceWords: ['balance_words', 'text'],
  driftLDay: ['drift_l_day', 'float8'],
  reason: ['reason', 'text'],
  dataUsed: ['data_used', 'jsonb'],
};
