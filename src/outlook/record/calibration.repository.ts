import { Injectable } from '@nestjs/common';
import { Database } from '../../app/index.js';
import type { CameTrue } from '../core/record/calibration.js';

export interface CameTrueRow extends CameTrue {
  /** With its version */
  readonly model: string;
}

/** The latest of a whole fleet: older ones were of another water. */
const MOST_SCORES = 20_000;

@Injectable()
export class CalibrationRepository {
  constructor(private readonly database: Database) {}

  /**
   * Forecasts that came true, the latest truth first: one query for all skids. Most machines still run when the first ones have failed: of their lives those forecasts alone tell how wide a range has to be whose range is over
   * by now, and a part that has outlived it counts by what it has lasted.
   */
  async cameTrue(now: Date): Promise<CameTrueRow[]> {
    const { rows } = await this.database.pool.query<CameTrueRow>(
      `SELECT o.model || ' ' || o.model_version AS model, x.skid_no || ' ' || x.life AS life, o.p10_days AS "p10Days", o.p50_days AS "p50Days", o.p90_days AS "p90Days", o.stretch,
              x.truth_days AS "truthDays"
         FROM outlook_score x JOIN outlook o ON o.id = x.outlook_id
        WHERE CASE WHEN o.limit_kind = 'life' THEN o.origin_day + ceil(o.p90_days)::int < $1::date AND (x.kind = 'scored' OR (x.kind = 'open' AND x.said_too_early)) ELSE x.kind = 'scored' END
        ORDER BY x.ended_on DESC NULLS LAST, x.outlook_id LIMIT ${MOST_SCORES}`,
      [now],
    );
    return rows;
  }
}
