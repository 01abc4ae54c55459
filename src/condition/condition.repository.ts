import { Injectable } from '@nestjs/common';
import { Database } from '../app/index.js';
import type { Baselines } from './core/baseline.js';
import type { DailyCondition } from './core/daily-condition.js';
import type { SkidAsBuilt } from './core/days-of-record.js';
import type { DoubtfulTime } from './core/doubtful-signals.js';
import type { PartLifeToStore } from './lives/part-lives.js';

export interface MachineToStore {
  readonly positionId: string;
  readonly kind: string;
  readonly life: number;
  readonly asOf: Date;
  readonly dailyUse: number | null;
  readonly source: string;
  readonly rejected: readonly string[];
}

export interface ConditionToStore {
  readonly days: readonly (DailyCondition & { readonly doubtful: readonly string[] })[];
  readonly lastReadingAt: Date | null;
  readonly byHand: boolean;
  readonly baselines: Baselines;
  readonly dailyLoadM3: number | null;
  readonly dailyLoadSd: number | null;
  readonly machines: readonly MachineToStore[];
  readonly lives: readonly PartLifeToStore[];
  readonly now: Date;
}

@Injectable()
export class ConditionRepository {
  constructor(private readonly database: Database) {}

  async skid(skidId: string): Promise<SkidAsBuilt | undefined> {
    const { rows } = await this.database.pool.query<SkidAsBuilt>(
      `SELECT s.flow_scheme AS scheme, s.tmp_from AS "tmpFrom", s.feed_height_m AS "feedHeightM", s.filtrate_height_m AS "filtrateHeightM",
              s.concentrate_height_m AS "concentrateHeightM", s.reference_c AS "referenceC", s.rated_flow_m3h AS "ratedFlowM3h",
              s.cartridge_reference_flow_m3h AS "cartridgeReferenceFlowM3h", s.baseline_lmh_bar AS "baselineLmhBar",
              to_char(s.commissioned_on, 'YYYY-MM-DD') AS "commissionedOn", site.time_zone AS "timeZone",
              coalesce((SELECT jsonb_agg(jsonb_build_object('fromDay', to_char(a.from_day, 'YYYY-MM-DD'), 'areaM2', a.area_m2) ORDER BY a.from_day)
                          FROM skid_area a WHERE a.skid_id = s.id), '[]') AS areas
         FROM skid s JOIN site ON site.id = s.site_id WHERE s.id = $1`,
      [skidId],
    );
    return rows[0];
  }

  /** When an instrument of the skid was out of tolerance. */
  async doubtfulTimes(skidId: string): Promise<DoubtfulTime[]> {
    const { rows } = await this.database.pool.query<DoubtfulTime>(`SELECT signal, from_at AS "fromAt", to_at AS "toAt" FROM doubtful_span WHERE skid_id = $1`, [
      skidId,
    ]);
    return rows;
  }

  /** Puts the condition of a skid in the place of what was stored, in one transaction. */
  async store(skid: { no: number; clientId: string }, condition: ConditionToStore): Promise<void> {
    const client = await this.database.pool.connect();
    let failed: Error | undefined;
    try {
      await client.query('BEGIN');
      await client.query('DELETE FROM daily_condition WHERE skid_no = $1', [skid.no]);
      await client.query(
        `INSERT INTO daily_condition (skid_no, client_id, day, cycles, filtration_hours, filtrate_m3, filtrate_estimated, permeability, permeability_low, permeability_high,
           permeability_count, permeability_start, flux_lmh, tmp_kpa, temperature_c, cartridge_dp_kpa, feed_turbidity_ntu, left_out, cartridge_left_out, by_hand, doubtful)
         SELECT $1, $2, d.day, d.cycles, d."filtrationHours", d."filtrateM3", d."filtrateEstimated", (d.permeability->>'median')::float8, (d.permeability->>'low')::float8,
           (d.permeability->>'high')::float8, coalesce((d.permeability->>'n')::int, 0), d."permeabilityStart", d."fluxLmh", d."tmpKpa", d."temperatureC", d."cartridgeDpKpa",
           d."feedTurbidityNtu", d."leftOut", d."cartridgeLeftOut", d."byHand", d.doubtful
         FROM jsonb_to_recordset($3::jsonb) AS d(day date, cycles int, "filtrationHours" float8, "filtrateM3" float8, "filtrateEstimated" bool, permeability jsonb,
           "permeabilityStart" float8, "fluxLmh" float8, "tmpKpa" float8, "temperatureC" float8, "cartridgeDpKpa" float8, "feedTurbidityNtu" float8, "leftOut" jsonb, "cartridgeLeftOut" jsonb, "byHand" bool, doubtful text[])`,
        [skid.no, skid.clientId, JSON.stringify(condition.days)],
      );
      await client.query('DELETE FROM machine_condition WHERE skid_no = $1', [skid.no]);
      await client.query(
        `INSERT INTO machine_condition (position_id, kind, client_id, skid_no, life, as_of, daily_use, source, rejected)
         SELECT m."positionId", m.kind, $2, $1, m.life, m."asOf", m."dailyUse", m.source, m.rejected
         FROM jsonb_to_recordset($3::jsonb) AS m("positionId" uuid, kind text, life float8, "asOf" timestamptz, "dailyUse" float8, source text, rejected jsonb)`,
        [skid.no, skid.clientId, JSON.stringify(condition.machines)],
      );
      await client.query('DELETE FROM part_life WHERE skid_no = $1', [skid.no]);
      await client.query(
        `INSERT INTO part_life (fitting_id, clock, skid_no, position_id, part_id, position_kind, life, ended, ended_on)
         SELECT l."fittingId", l.clock, $1, l."positionId", l."partId", l."positionKind", l.life, l.ended, l."endedOn"
         FROM jsonb_to_recordset($2::jsonb) AS l("fittingId" uuid, clock text, "positionId" uuid, "partId" uuid, "positionKind" text, life float8, ended text, "endedOn" date)`,
        [skid.no, JSON.stringify(condition.lives)],
      );
      await client.query(
        `INSERT INTO skid_condition (skid_no, client_id, computed_at, last_reading_at, by_hand, baselines, daily_load_m3, daily_load_sd) VALUES ($1, $2, $3, $4, $5, $6, $7, $8)
         ON CONFLICT (skid_no) DO UPDATE SET client_id = excluded.client_id, computed_at = excluded.computed_at, last_reading_at = excluded.last_reading_at,
           by_hand = excluded.by_hand, baselines = excluded.baselines, daily_load_m3 = excluded.daily_load_m3, daily_load_sd = excluded.daily_load_sd`,
        [
          skid.no,
          skid.clientId,
          condition.now,
          condition.lastReadingAt,
          condition.byHand,
          JSON.stringify(condition.baselines),
          condition.dailyLoadM3,
          condition.dailyLoadSd,
        ],
      );
      await client.query('COMMIT');
    } catch (error) {
      failed = error as Error;
      await client.query('ROLLBACK').catch(() => {});
      throw error;
    } finally {
      client.release(failed);
    }
  }
}
