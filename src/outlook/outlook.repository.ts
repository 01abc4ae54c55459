import { Injectable } from '@nestjs/common';
import { Database } from '../app/index.js';
import type { DoubtOfSignal } from './core/doubts-of-outlook.js';
import type { OutlookDay, OutlookFacts, OutlookToStore, SetFitted } from './core/skid/known-of-skid.js';
import { MEMBRANE_CHANGES } from './membranes/membrane-changes.sql.js';

/** $1 skid, $2 client, $3 now, $4 the outlooks as JSON. */
const VALUES_OF_OUTLOOKS = `SELECT $1, $2, o.subject, o."partId", o."limitKind", o."limitValue", o.clock, o."originAt", o."originDay", $3, o.model, o."modelVersion", o.kind,
         ARRAY(SELECT jsonb_array_elements_text(o."metByDay")::float8), o."shareBeyond", o."p10Days", o."p50Days", o."p90Days", o.path, o.reason, o."dataUsed", o."firstValue", coalesce(o.limits, '[]'), o.stretch
       FROM jsonb_to_recordset($4::jsonb) AS o(subject text, "partId" uuid, "limitKind" text, "limitValue" float8, clock text, "originAt" timestamptz, "originDay" date,
         model text, "modelVersion" text, kind text, "metByDay" jsonb, "shareBeyond" float8, "p10Days" float8, "p50Days" float8, "p90Days" float8, path jsonb, reason text, "dataUsed" jsonb, "firstValue" float8, limits jsonb, stretch float8)`;

@Injectable()
export class OutlookRepository {
  constructor(private readonly database: Database) {}

  async facts(skidId: string): Promise<OutlookFacts | undefined> {
    const { rows } = await this.database.pool.query<OutlookFacts>(
      `SELECT s.id AS "skidId", ${MEMBRANE_CHANGES} AS "membraneChanges", s.permeability_limit_fraction AS "permeabilityLimitFraction", s.cartridge_limit_kpa AS "cartridgeLimitKpa", s.service_state AS "serviceState",
              s.flow_scheme AS scheme, s.tmp_from AS "tmpFrom",
              (SELECT a.area_m2 FROM skid_area a WHERE a.skid_id = s.id ORDER BY a.from_day DESC LIMIT 1) AS "areaM2", site.time_zone AS "timeZone",
              k.last_reading_at AS "lastReadingAt", k.baselines, k.daily_load_m3 AS "dailyLoadM3", k.daily_load_sd AS "dailyLoadSd"
         FROM skid s JOIN site ON site.id = s.site_id LEFT JOIN skid_condition k ON k.skid_no = s.no WHERE s.id = $1`,
      [skidId],
    );
    return rows[0];
  }

  async days(skidNo: number): Promise<OutlookDay[]> {
    const { rows } = await this.database.pool.query<OutlookDay>(
      `SELECT to_char(day, 'YYYY-MM-DD') AS day, filtrate_m3 AS "filtrateM3", permeability, flux_lmh AS "fluxLmh", cartridge_dp_kpa AS "cartridgeDpKpa" FROM daily_condition WHERE skid_no = $1 ORDER BY day`,
      [skidNo],
    );
    return rows;
  }

  /** Days of the recovery cleans, by the site's calendar. */
  async recoveryCleanDays(skidId: string, timeZone: string): Promise<string[]> {
    const { rows } = await this.database.pool.query<{ day: string }>(
      `SELECT DISTINCT to_char(at AT TIME ZONE $2, 'YYYY-MM-DD') AS day FROM clean WHERE skid_id = $1 AND kind = 'CIP' ORDER BY day`,
      [skidId, timeZone],
    );
    return rows.map((row) => row.day);
  }

  async cartridgeSets(skidId: string, timeZone: string): Promise<SetFitted[]> {
    const { rows } = await this.database.pool.query<SetFitted>(
      `SELECT f.position_id AS "positionId", f.part_id AS "partId", to_char(f.fitted_at AT TIME ZONE $2, 'YYYY-MM-DD') AS "fittedOn",
              to_char(f.removed_at AT TIME ZONE $2, 'YYYY-MM-DD') AS "removedOn", f.removal_reason AS "removalReason",
              part.item_id AS "itemId", part.set_count AS "setCount"
         FROM fitting f JOIN position p ON p.id = f.position_id JOIN part ON part.id = f.part_id WHERE p.skid_id = $1 AND p.kind = 'pre-filter' AND p.ended_on IS NULL ORDER BY f.fitted_at`,
      [skidId, timeZone],
    );
    return rows;
  }

  async doubts(skidId: string, timeZone: string): Promise<DoubtOfSignal[]> {
    const { rows } = await this.database.pool.query<DoubtOfSignal>(
      `SELECT signal, reason, to_char(from_at AT TIME ZONE $2, 'YYYY-MM-DD') AS "fromDay", to_char(to_at AT TIME ZONE $2, 'YYYY-MM-DD') AS "toDay"
         FROM doubtful_span WHERE skid_id = $1 ORDER BY to_at, from_at, signal`,
      [skidId, timeZone],
    );
    return rows;
  }

  /** Days for which there is a forecast, or was one tried. */
  async originDays(skidNo: number): Promise<string[]> {
    const { rows } = await this.database.pool.query<{ day: string }>(
      `SELECT DISTINCT to_char(origin_day, 'YYYY-MM-DD') AS day FROM outlook WHERE skid_no = $1`,
      [skidNo],
    );
    return rows.map((row) => row.day);
  }

  /** Keeps forecasts that were made for days of the past; where one is kept already it stays. */
  async storeAfterwards(skid: { no: number; clientId: string }, outlooks: readonly OutlookToStore[], now: Date): Promise<void> {
    await this.database.pool.query(
      `INSERT INTO outlook (skid_no, client_id, subject, part_id, limit_kind, limit_value, clock, origin_at, origin_day, computed_at, model, model_version, kind, met_by_day,
         share_beyond, p10_days, p50_days, p90_days, path, reason, data_used, first_value, limits, stretch, afterwards) ${VALUES_OF_OUTLOOKS.replace('o.stretch\n', 'o.stretch, true\n')}
       ON CONFLICT (skid_no, subject, limit_kind, origin_day) DO NOTHING`,
      [skid.no, skid.clientId, now, JSON.stringify(outlooks)],
    );
  }

  /**
   * Keeps an outlook, final from the start: one a subject and day of origin, the latest of that day. After 90 days one a week is left; of the life of a machine at
   * once, since it changes slowly, and of those with too little data the last alone.
   */
  async store(skid: { no: number; clientId: string }, outlooks: readonly OutlookToStore[], now: Date): Promise<void> {
    await this.database.pool.query(
      `INSERT INTO outlook (skid_no, client_id, subject, part_id, limit_kind, limit_value, clock, origin_at, origin_day, computed_at, model, model_version, kind, met_by_day,
         share_beyond, p10_days, p50_days, p90_days, path, reason, data_used, first_value, limits, stretch)
       ${VALUES_OF_OUTLOOKS}
       ON CONFLICT (skid_no, subject, limit_kind, origin_day) DO UPDATE SET part_id = excluded.part_id, limit_value = excluded.limit_value, origin_at = excluded.origin_at,
         computed_at = excluded.computed_at, model = excluded.model, model_version = excluded.model_version, kind = excluded.kind, met_by_day = excluded.met_by_day,
         share_beyond = excluded.share_beyond, p10_days = excluded.p10_days, p50_days = excluded.p50_days, p90_days = excluded.p90_days, path = excluded.path,
         reason = excluded.reason, data_used = excluded.data_used, first_value = excluded.first_value, limits = excluded.limits, stretch = excluded.stretch, afterwards = false`,
      [skid.no, skid.clientId, now, JSON.stringify(outlooks)],
    );
    await this.database.pool.query(
      `DELETE FROM outlook WHERE id IN (
         SELECT id FROM (
           SELECT id, limit_kind, kind, origin_day, max(origin_day) OVER (PARTITION BY subject, limit_kind) AS last,
                  max(origin_day) OVER (PARTITION BY subject, limit_kind, date_trunc('week', origin_day::timestamp)) AS last_of_week
             FROM outlook WHERE skid_no = $1) o
          WHERE (o.origin_day < $2::date - 90 OR o.limit_kind = 'life')
            AND (o.last_of_week > o.origin_day OR (o.limit_kind = 'life' AND o.kind = 'too-little-data' AND o.last > o.origin_day)))`,
      [skid.no, now],
    );
  }
}
