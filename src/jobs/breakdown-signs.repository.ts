import { Injectable } from '@nestjs/common';
import { Database } from '../app/index.js';
import type { CountedTest } from './core/breakdown/integrity-sign.js';
import type { FlowRecord } from './core/breakdown/no-flow-sign.js';
import type { TankToday } from './core/breakdown/tank-sign.js';

export interface SkidToWatch {
  readonly id: string;
  readonly clientId: string;
  readonly siteId: string;
  readonly serviceState: string;
}

/** A breakdown that was made by a sign which is not over. */
export interface SignOnRecord {
  readonly jobId: string;
  readonly sign: string;
  readonly noticedAt: Date;
  readonly downFrom: Date | null;
  readonly restoredAt: Date | null;
  /** Nobody has taken it, helped, planned or edited it */
  readonly untouched: boolean;
}

/** Flow meters do not show exactly nothing: below this share of the rated flow, or this flow, nothing flows. Common practice. */
const DRIFT_SHARE = 0.02;
const DRIFT_M3H = 0.1;
/** Flow is looked for in the samples of so many days; cycles tell of the time before. */
const SAMPLE_DAYS = 31;
/** A product tank is full from this share of the highest level of those days on: skids start again somewhat below their highest level. Common practice. */
const FULL_SHARE = 0.8;

@Injectable()
export class BreakdownSignsRepository {
  constructor(private readonly database: Database) {}

  async skid(id: string): Promise<SkidToWatch | undefined> {
    return (
      await this.rows<SkidToWatch>(
        'SELECT id, client_id AS "clientId", site_id AS "siteId", service_state AS "serviceState" FROM skid WHERE id = $1 AND ended_on IS NULL',
        [id],
      )
    )[0];
  }

  async lastCountedTest(skidId: string): Promise<CountedTest | null> {
    const tests = await this.rows<CountedTest>(
      `SELECT at, outcome, reasons FROM integrity_test WHERE skid_id = $1 AND outcome IN ('passed', 'failed') ORDER BY at DESC LIMIT 1`,
      [skidId],
    );
    return tests[0] ?? null;
  }

  async flow(skid: { readonly id: string; readonly no: number }, now: Date): Promise<Omit<FlowRecord, 'lastFullAt'>> {
    const [record] = await this.rows<Omit<FlowRecord, 'lastFullAt'>>(
      `WITH own AS (SELECT coalesce(rated_flow_m3h * ${DRIFT_SHARE}, ${DRIFT_M3H}) AS drift FROM skid WHERE id = $1),
        watched AS (SELECT id, code FROM signal WHERE skid_id = $1 AND position_id IS NULL),
        flowing AS (
          SELECT greatest(
            (SELECT ended_at FROM cycle WHERE skid_no = $2 AND coalesce(filtrate_m3, flow_m3h, filtration_minutes) > 0 ORDER BY started_at DESC LIMIT 1),
            (SELECT max(last.at) FROM watched s, own CROSS JOIN LATERAL (
               SELECT v.at FROM sample v WHERE v.signal_id = s.id AND v.at > $3::timestamptz - interval '${SAMPLE_DAYS} days' AND v.value > own.drift AND v.quality = 0 ORDER BY v.at DESC LIMIT 1
             ) last WHERE s.code = 'filtrate_flow'),
            (SELECT max(r.at) FROM own, hand_reading r JOIN hand_value h ON h.hand_reading_id = r.id WHERE r.skid_id = $1 AND h.signal = 'filtrate_flow' AND h.value > own.drift)
          ) AS at
        ), since AS (
          SELECT min(seen.first) AS first, max(seen.last) AS last FROM flowing CROSS JOIN LATERAL (
            SELECT (SELECT min(v.at) FROM sample v WHERE v.signal_id = s.id AND v.at > flowing.at) AS first,
                   (SELECT max(v.at) FROM sample v WHERE v.signal_id = s.id AND v.at > flowing.at) AS last FROM watched s
            UNION ALL
            SELECT min(ended_at), max(ended_at) FROM cycle WHERE skid_no = $2 AND ended_at > flowing.at AND started_at >= flowing.at
            UNION ALL
            SELECT min(r.at), max(r.at) FROM hand_reading r JOIN hand_value h ON h.hand_reading_id = r.id
             WHERE r.skid_id = $1 AND h.signal = 'filtrate_flow' AND r.at > flowing.at
          ) seen
        )
       SELECT flowing.at AS "lastFlowAt", since.first AS "firstWithoutAt", since.last AS "lastReadingAt" FROM flowing, since`,
      [skid.id, skid.no, now],
    );
    return record ?? { lastFlowAt: null, firstWithoutAt: null, lastReadingAt: null };
  }

  /** When the product tank was last read full, by samples or by hand; `null`: not in these days, or nobody measures its level. */
  async tankLastFull(skidId: string, now: Date): Promise<Date | null> {
    const [found] = await this.rows<{ at: Date | null }>(
      `WITH level AS (
          SELECT v.at, v.value FROM signal s JOIN sample v ON v.signal_id = s.id
           WHERE s.skid_id = $1 AND s.code = 'tank_level' AND v.quality = 0 AND v.at > $2::timestamptz - interval '${SAMPLE_DAYS} days'
          UNION ALL
          SELECT r.at, h.value FROM hand_reading r JOIN hand_value h ON h.hand_reading_id = r.id
           WHERE r.skid_id = $1 AND h.signal = 'tank_level' AND r.at > $2::timestamptz - interval '${SAMPLE_DAYS} days'
        )
       SELECT max(at) AS at FROM level WHERE value > 0 AND value >= ${FULL_SHARE} * (SELECT max(value) FROM level)`,
      [skidId, now],
    );
    return found?.at ?? null;
  }

  tanks(skidId: string): Promise<TankToday[]> {
    return this.rows<TankToday>(
      `SELECT t.id, t.name, t.chemical, coalesce(t.dose_mg_l, 0) > 0 AS dosed, CASE WHEN c.kind = 'cover' THEN c.early_days END AS "earlyDays"
         FROM tank t LEFT JOIN tank_cover c ON c.tank_id = t.id WHERE t.skid_id = $1 AND t.ended_on IS NULL ORDER BY t.name`,
      [skidId],
    );
  }

  onRecord(skidId: string): Promise<SignOnRecord[]> {
    return this.rows<SignOnRecord>(
      `SELECT b.job_id AS "jobId", b.sign, b.noticed_at AS "noticedAt", b.down_from AS "downFrom", b.restored_at AS "restoredAt",
              j.state = 'open' AND j.version = 1 AND j.visit_id IS NULL AND b.taken_at IS NULL AND b.telephone = ''
                AND NOT EXISTS (SELECT 1 FROM job_report r WHERE r.job_id = j.id) AS untouched
         FROM breakdown b JOIN job j ON j.id = b.job_id WHERE b.skid_id = $1 AND b.sign IS NOT NULL AND b.sign_over_at IS NULL`,
      [skidId],
    );
  }

  private async rows<Row extends object>(text: string, values: unknown[]): Promise<Row[]> {
    return (await this.database.pool.query<Row>(text, values)).rows;
  }
}
