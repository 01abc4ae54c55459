import { Injectable } from '@nestjs/common';
import { Database } from '../app/index.js';
import type { SignalCode } from '../shared/signals.js';
import type { CycleFact } from './core/cycle-fact.js';

export interface CleanRow {
  readonly kind: 'CEB' | 'CIP';
  readonly at: Date;
  readonly chemical: string;
}

export interface HandRow {
  readonly at: Date;
  readonly minutesSinceBackwash: number | null;
  /** Stored unit of the signal, with the reading error in it */
  readonly values: Partial<Record<SignalCode, { value: number; error: number | null }>>;
  /** Hour meter of the feed pump read on the same visit */
  readonly feedPumpHours: number | null;
}

export interface MeterRow {
  readonly positionId: string;
  readonly kind: string;
  readonly modulus: number | null;
  readonly readings: { at: Date; kind: 'reading' | 'exchange'; value: number; oldFinal: number | null }[];
}

export interface TankFactRow {
  readonly tankId: string;
  readonly dips: { at: Date; levelM: number; strengthGL: number | null; readingError: number | null }[];
  readonly deliveries: { at: Date; volumeL: number; strengthGL: number | null }[];
}

export interface ServiceRow {
  readonly positionId: string | null;
  readonly task: string;
  readonly at: Date;
}

/** On/off samples of a machine. */
export interface StateRow {
  readonly positionId: string;
  readonly at: Date[];
  readonly running: boolean[];
}

/** What was taken in for one skid, for the stages that draw conclusions from it. Each method is one query. */
@Injectable()
export class IntakeFacts {
  constructor(private readonly database: Database) {}

  async cyclesOf(skidNo: number): Promise<CycleFact[]> {
    const { rows } = await this.database.pool.query<CycleFact>(
      `SELECT started_at AS "startedAt", ended_at AS "endedAt", filtration_minutes AS "filtrationMinutes", filtrate_m3 AS "filtrateM3", flow_m3h AS "flowM3h",
              feed_kpa AS "feedKpa", filtrate_kpa AS "filtrateKpa", concentrate_kpa AS "concentrateKpa", tmp_kpa AS "tmpKpa", tmp_start_kpa AS "tmpStartKpa",
              tmp_end_kpa AS "tmpEndKpa", temperature_c AS "temperatureC", cartridge_dp_kpa AS "cartridgeDpKpa", feed_turbidity_ntu AS "feedTurbidityNtu", quality,
              false AS "byHand"
         FROM cycle WHERE skid_no = $1 ORDER BY started_at`,
      [skidNo],
    );
    return rows;
  }

  async cleansOf(skidId: string): Promise<CleanRow[]> {
    const { rows } = await this.database.pool.query<CleanRow>('SELECT kind, at, chemical FROM clean WHERE skid_id = $1 ORDER BY at', [skidId]);
    return rows;
  }

  async handReadingsOf(skidId: string): Promise<HandRow[]> {
    const { rows } = await this.database.pool.query<HandRow>(
      `SELECT h.at, h.minutes_since_backwash AS "minutesSinceBackwash",
              coalesce((SELECT jsonb_object_agg(v.signal, jsonb_build_object('value', v.value, 'error', v.reading_error)) FROM hand_value v WHERE v.hand_reading_id = h.id), '{}') AS values,
              (SELECT r.value FROM meter m JOIN position p ON p.id = m.position_id JOIN meter_reading r ON r.meter_id = m.id
                WHERE p.skid_id = h.skid_id AND p.kind = 'feed pump' AND m.kind = 'run hours' AND r.at = h.at LIMIT 1) AS "feedPumpHours"
         FROM hand_reading h WHERE h.skid_id = $1 ORDER BY h.at`,
      [skidId],
    );
    return rows;
  }

  async metersOf(skidId: string): Promise<MeterRow[]> {
    const { rows } = await this.database.pool.query<
      Omit<MeterRow, 'readings'> & { readings: { at: string; kind: 'reading' | 'exchange'; value: number; oldFinal: number | null }[] }
    >(
      `SELECT m.position_id AS "positionId", m.kind, m.modulus,
              coalesce(jsonb_agg(jsonb_build_object('at', r.at, 'kind', r.kind, 'value', r.value, 'oldFinal', r.old_final) ORDER BY r.at) FILTER (WHERE r.at IS NOT NULL), '[]') AS readings
         FROM meter m JOIN position p ON p.id = m.position_id LEFT JOIN meter_reading r ON r.meter_id = m.id
        WHERE p.skid_id = $1 AND p.ended_on IS NULL GROUP BY m.id`,
      [skidId],
    );
    return rows.map((row) => ({ ...row, readings: row.readings.map((reading) => ({ ...reading, at: new Date(reading.at) })) }));
  }

  async statesOf(skidId: string): Promise<StateRow[]> {
    const { rows } = await this.database.pool.query<{ positionId: string; at: Date[]; running: boolean[] }>(
      `SELECT s.position_id AS "positionId", array_agg(x.at ORDER BY x.at) AS at, array_agg(x.value > 0 ORDER BY x.at) AS running
         FROM signal s JOIN sample x ON x.signal_id = s.id WHERE s.skid_id = $1 AND s.code = 'running' AND s.position_id IS NOT NULL GROUP BY s.position_id`,
      [skidId],
    );
    return rows;
  }

  async tankFactsOf(skidId: string): Promise<TankFactRow[]> {
    const { rows } = await this.database.pool.query<{
      tankId: string;
      dips: (Omit<TankFactRow['dips'][number], 'at'> & { at: string })[];
      deliveries: (Omit<TankFactRow['deliveries'][number], 'at'> & { at: string })[];
    }>(
      `SELECT t.id AS "tankId",
              (SELECT coalesce(jsonb_agg(jsonb_build_object('at', d.at, 'levelM', d.level_m, 'strengthGL', d.strength_g_l, 'readingError', d.reading_error) ORDER BY d.at), '[]')
                 FROM tank_dip d WHERE d.tank_id = t.id) AS dips,
              (SELECT coalesce(jsonb_agg(jsonb_build_object('at', d.at, 'volumeL', d.volume_l, 'strengthGL', d.strength_g_l) ORDER BY d.at), '[]')
                 FROM tank_delivery d WHERE d.tank_id = t.id) AS deliveries
         FROM tank t WHERE t.skid_id = $1 AND t.ended_on IS NULL`,
      [skidId],
    );
    return rows.map(({ tankId, dips, deliveries }) => ({
      tankId,
      dips: dips.map((dip) => ({ ...dip, at: new Date(dip.at) })),
      deliveries: deliveries.map((delivery) => ({ ...delivery, at: new Date(delivery.at) })),
    }));
  }

  async serviceEntriesOf(skidId: string): Promise<ServiceRow[]> {
    const { rows } = await this.database.pool.query<ServiceRow>(
      'SELECT position_id AS "positionId", task, at FROM service_entry WHERE skid_id = $1 ORDER BY at',
      [skidId],
    );
    return rows;
  }

  /** The latest thing that a plant or a person said of the skid: a cycle, a sample or a reading by hand. */
  async lastReadingAt(skid: { id: string; no: number }): Promise<Date | null> {
    const { rows } = await this.database.pool.query<{ at: Date | null }>(
      `SELECT greatest((SELECT max(ended_at) FROM cycle WHERE skid_no = $2), (SELECT max(at) FROM hand_reading WHERE skid_id = $1),
         (SELECT max(last.at) FROM signal s CROSS JOIN LATERAL (SELECT x.at FROM sample x WHERE x.signal_id = s.id ORDER BY x.at DESC LIMIT 1) last WHERE s.skid_id = $1)) AS at`,
      [skid.id, skid.no],
    );
    return rows[0]?.at ?? null;
  }
}
