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

  /** Forecasts that came true, the latest truth first: one query for all skids. */
  async cameTrue(): Promise<CameTrueRow[]> {
    const { rows } = await this.database.pool.query<CameTrueRow>(
      `SELECT o.model || ' ' || o.model_version AS model, x.skid_no || ' ' || x.life AS life, o.p10_days AS "p10Days", o.p50_days AS "p50Days", o.p90_days AS "p90Days", o.stretch,
              x.truth_days AS "truthDays"
         FROM outlook_score x JOIN outlook o ON o.id = x.outlook_id WHERE x.kind = 'scored' AND o.limit_kind <> 'life' ORDER BY x.ended_on DESC, x.outlook_id LIMIT ${MOST_SCORES}`,
    );
    return rows;
  }
}
