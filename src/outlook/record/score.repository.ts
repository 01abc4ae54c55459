import { Injectable } from '@nestjs/common';
import { Database } from '../../app/index.js';
import type { Forecast } from '../core/record/score.js';
import type { ForecastKind } from './record.dto.js';

/** An outlook that said when, as it was stored. */
export interface StoredForecast extends Forecast {
  readonly id: string;
  /** `membranes`, or the position */
  readonly subject: string;
  readonly partId: string | null;
  readonly limitKind: ForecastKind;
  readonly limitValue: number;
}

/** How the life of a part ended. */
export interface PartEnd {
  readonly positionId: string;
  readonly partId: string;
  readonly failed: boolean;
  readonly on: string;
}

export interface ScoreToStore {
  readonly outlookId: string;
  readonly life: string;
  readonly kind: string;
  readonly endedOn: string | null;
  readonly truthDays: number;
  readonly errorDays: number | null;
  readonly inside: boolean | null;
  readonly saidTooEarly: boolean;
}

@Injectable()
export class ScoreRepository {
  constructor(private readonly database: Database) {}

  async forecasts(skidNo: number): Promise<StoredForecast[]> {
    const { rows } = await this.database.pool.query<StoredForecast>(
      `SELECT id::text, subject, part_id AS "partId", limit_kind AS "limitKind", limit_value AS "limitValue", to_char(origin_day, 'YYYY-MM-DD') AS "originDay",
              p10_days AS "p10Days", p50_days AS "p50Days", p90_days AS "p90Days"
         FROM outlook WHERE skid_no = $1 AND kind = 'outlook' ORDER BY id`,
      [skidNo],
    );
    return rows;
  }

  /** Parts of a skid that are out again. */
  async partEnds(skidNo: number): Promise<PartEnd[]> {
    const { rows } = await this.database.pool.query<PartEnd>(
      `SELECT position_id AS "positionId", part_id AS "partId", ended = 'failed' AS failed, to_char(ended_on, 'YYYY-MM-DD') AS on
         FROM part_life WHERE skid_no = $1 AND clock = 'days' AND ended_on IS NOT NULL`,
      [skidNo],
    );
    return rows;
  }

  /**
   * The scores of a skid, all made again and the changed ones written: late facts change what came of a forecast, never the forecast. Those that stayed are left out before, since an upsert locks, and so writes,
   * each row that it meets.
   */
  async store(skid: { readonly no: number; readonly clientId: string }, scores: readonly ScoreToStore[]): Promise<void> {
    await this.database.pool.query(
      `WITH said AS MATERIALIZED (
         SELECT * FROM jsonb_to_recordset($3::jsonb) AS s("outlookId" bigint, life text, kind text, "endedOn" date, "truthDays" int, "errorDays" float8, inside boolean, "saidTooEarly" boolean)),
       gone AS (DELETE FROM outlook_score g WHERE g.skid_no = $1 AND NOT EXISTS (SELECT 1 FROM said WHERE said."outlookId" = g.outlook_id))
       INSERT INTO outlook_score (outlook_id, skid_no, client_id, life, kind, ended_on, truth_days, error_days, inside, said_too_early)
       SELECT s."outlookId", $1, $2, s.life, s.kind, s."endedOn", s."truthDays", s."errorDays", s.inside, s."saidTooEarly" FROM said s
        WHERE NOT EXISTS (SELECT 1 FROM outlook_score k WHERE k.outlook_id = s."outlookId" AND (k.life, k.kind, k.ended_on, k.truth_days, k.error_days, k.inside, k.said_too_early)
                IS NOT DISTINCT FROM (s.life, s.kind, s."endedOn", s."truthDays", s."errorDays", s.inside, s."saidTooEarly"))
       ON CONFLICT (outlook_id) DO UPDATE SET life = excluded.life, kind = excluded.kind, ended_on = excluded.ended_on, truth_days = excluded.truth_days,
         error_days = excluded.error_days, inside = excluded.inside, said_too_early = excluded.said_too_early`,
      [skid.no, skid.clientId, JSON.stringify(scores)],
    );
  }
}
