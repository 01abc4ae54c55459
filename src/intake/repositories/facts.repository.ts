import { Injectable } from '@nestjs/common';
import { Database } from '../../app/index.js';
import type { CycleFact } from '../core/cycle-fact.js';
import type { HandRow } from '../core/hand-row.js';

export interface CleanRow {
  readonly kind: 'CEB' | 'CIP';
  readonly at: Date;
  readonly chemical: string;
  readonly strengthMgL: number | null;
  readonly contactMinutes: number | null;
}

export interface MeterRow {
  readonly id: string;
  readonly positionId: string;
  readonly kind: 'run hours' | 'starts' | 'strokes';
  readonly modulus: number | null;
  /** In order of time; of an exchange, `value` is the first of the new meter */
  readonly readings: readonly { readonly at: Date; readonly kind: 'reading' | 'exchange'; readonly value: number; readonly oldFinal: number | null }[];
}

/** Samples of one machine that say whether it runs, in order of time. */
export interface StateRow {
  readonly positionId: string;
  readonly at: readonly Date[];
  readonly running: readonly boolean[];
}

export interface ServiceEntryFact {
  readonly positionId: string | null;
  readonly task: string;
  readonly at: Date;
  readonly minutes: number | null;
}

export interface TankFacts {
  readonly tankId: string;
  readonly dips: readonly { readonly at: Date; readonly levelM: number; readonly strengthGL: number | null; readonly readingError: number | null }[];
  readonly deliveries: readonly { readonly at: Date; readonly volumeL: number; readonly strengthGL: number | null; readonly expiresOn: string | null }[];
  /** What was passed on to other tanks of the site */
  readonly passedOn: readonly { readonly at: Date; readonly volumeL: number }[];
}

const EARLIEST = new Date(0);

/** The facts of a skid as later stages read them: whole sets, in order of time. */
@Injectable()
export class IntakeFacts {
  constructor(private readonly database: Database) {}

  /** Cycles that began at `from` or later: reported ones, and those made from samples. */
  async cyclesOf(skidNo: number, from: Date = EARLIEST): Promise<CycleFact[]> {
    return this.rows<CycleFact>(
      `SELECT started_at AS "startedAt", ended_at AS "endedAt", filtration_minutes AS "filtrationMinutes", filtrate_m3 AS "filtrateM3", flow_m3h AS "flowM3h",
              feed_kpa AS "feedKpa", filtrate_kpa AS "filtrateKpa", concentrate_kpa AS "concentrateKpa", tmp_kpa AS "tmpKpa", tmp_start_kpa AS "tmpStartKpa",
              tmp_end_kpa AS "tmpEndKpa", temperature_c AS "temperatureC", cartridge_dp_kpa AS "cartridgeDpKpa", feed_turbidity_ntu AS "feedTurbidityNtu",
              quality, false AS "byHand"
         FROM cycle WHERE skid_no = $1 AND started_at >= $2 ORDER BY started_at`,
      [skidNo, from],
    );
  }

  async handReadingsOf(skidId: string): Promise<HandRow[]> {
    return this.rows<HandRow>(
      `SELECT r.at, r.minutes_since_backwash AS "minutesSinceBackwash", v.values, pump.value AS "feedPumpHours"
         FROM hand_reading r
         LEFT JOIN LATERAL (
           SELECT coalesce(jsonb_object_agg(signal, jsonb_build_object('value', value, 'error', reading_error)), '{}') AS values FROM hand_value WHERE hand_reading_id = r.id
         ) v ON true
         LEFT JOIN LATERAL (
           SELECT m.value FROM meter_reading m JOIN meter ON meter.id = m.meter_id JOIN position p ON p.id = meter.position_id
            WHERE p.skid_id = r.skid_id AND p.kind = 'feed pump' AND meter.kind = 'run hours' AND m.at = r.at ORDER BY p.name LIMIT 1
         ) pump ON true
        WHERE r.skid_id = $1 ORDER BY r.at`,
      [skidId],
    );
  }

  async cleansOf(skidId: string): Promise<CleanRow[]> {
    return this.rows<CleanRow>(
      `SELECT kind, at, chemical, strength_mg_l AS "strengthMgL", contact_minutes AS "contactMinutes" FROM clean WHERE skid_id = $1 ORDER BY at, kind, chemical`,
      [skidId],
    );
  }

  async metersOf(skidId: string): Promise<MeterRow[]> {
    const rows = await this.rows<Omit<MeterRow, 'readings'> & MeterRow['readings'][number] & { meterKind: MeterRow['kind'] }>(
      `SELECT m.id, m.position_id AS "positionId", m.kind AS "meterKind", m.modulus, r.at, r.kind, r.value, r.old_final AS "oldFinal"
         FROM meter m JOIN position p ON p.id = m.position_id JOIN meter_reading r ON r.meter_id = m.id
        WHERE p.skid_id = $1 AND p.ended_on IS NULL ORDER BY p.name, m.kind, m.id, r.at`,
      [skidId],
    );
    return grouped(rows, ({ id }) => id).map((readings) => {
      const { id, positionId, meterKind, modulus } = readings[0];
      return { id, positionId, kind: meterKind, modulus, readings: readings.map(({ at, kind, value, oldFinal }) => ({ at, kind, value, oldFinal })) };
    });
  }

  async statesOf(skidId: string): Promise<StateRow[]> {
    const rows = await this.rows<{ positionId: string; at: Date; running: boolean }>(
      `SELECT s.position_id AS "positionId", v.at, v.value > 0 AS running
         FROM signal s JOIN position p ON p.id = s.position_id JOIN sample v ON v.signal_id = s.id
        WHERE s.skid_id = $1 AND s.code = 'running' AND p.ended_on IS NULL AND v.quality = 0 ORDER BY s.id, v.at`,
      [skidId],
    );
    return grouped(rows, ({ positionId }) => positionId).map((samples) => ({
      positionId: samples[0].positionId,
      at: samples.map(({ at }) => at),
      running: samples.map(({ running }) => running),
    }));
  }

  async serviceEntriesOf(skidId: string): Promise<ServiceEntryFact[]> {
    return this.rows<ServiceEntryFact>(`SELECT position_id AS "positionId", task, at, minutes FROM service_entry WHERE skid_id = $1 ORDER BY at, id`, [skidId]);
  }

  /** Dips and deliveries of tanks, in the order of the ids. */
  async tankFactsOf(tankIds: readonly string[]): Promise<TankFacts[]> {
    const [dips, deliveries, passedOn] = await Promise.all([
      this.rows<{ tankId: string } & TankFacts['dips'][number]>(
        `SELECT tank_id AS "tankId", at, level_m AS "levelM", strength_g_l AS "strengthGL", reading_error AS "readingError"
           FROM tank_dip WHERE tank_id = ANY($1::uuid[]) ORDER BY at`,
        [tankIds],
      ),
      this.rows<{ tankId: string } & TankFacts['deliveries'][number]>(
        `SELECT tank_id AS "tankId", at, volume_l AS "volumeL", strength_g_l AS "strengthGL", to_char(expires_on, 'YYYY-MM-DD') AS "expiresOn"
           FROM tank_delivery WHERE tank_id = ANY($1::uuid[]) ORDER BY at`,
        [tankIds],
      ),
      this.rows<{ tankId: string } & TankFacts['passedOn'][number]>(
        `SELECT from_tank_id AS "tankId", at, volume_l AS "volumeL" FROM tank_delivery WHERE from_tank_id = ANY($1::uuid[]) ORDER BY at`,
        [tankIds],
      ),
    ]);
    return tankIds.map((tankId) => ({
      tankId,
      dips: dips.filter((dip) => dip.tankId === tankId),
      deliveries: deliveries.filter((delivery) => delivery.tankId === tankId),
      passedOn: passedOn.filter((delivery) => delivery.tankId === tankId),
    }));
  }

  /** The time of the latest reading of any kind: sample, cycle, hand reading, meter or dip. */
  async lastReadingAt(skid: { readonly id: string; readonly no: number }): Promise<Date | null> {
    const [row] = await this.rows<{ at: Date | null }>(
      `SELECT greatest(
         (SELECT max(last.at) FROM signal s CROSS JOIN LATERAL (SELECT max(v.at) AS at FROM sample v WHERE v.signal_id = s.id) last WHERE s.skid_id = $1),
         (SELECT max(ended_at) FROM cycle WHERE skid_no = $2),
         (SELECT max(at) FROM hand_reading WHERE skid_id = $1),
         (SELECT max(r.at) FROM meter_reading r JOIN meter m ON m.id = r.meter_id JOIN position p ON p.id = m.position_id WHERE p.skid_id = $1),
         (SELECT max(d.at) FROM tank_dip d JOIN tank t ON t.id = d.tank_id WHERE t.skid_id = $1)
       ) AS at`,
      [skid.id, skid.no],
    );
    return row?.at ?? null;
  }

  private async rows<Row extends object>(text: string, values: unknown[]): Promise<Row[]> {
    return (await this.database.pool.query<Row>(text, values)).rows;
  }
}

/** Neighbouring rows with the same key together. */
function grouped<Row>(rows: readonly Row[], keyOf: (row: Row) => string): [Row, ...Row[]][] {
  const groups: [Row, ...Row[]][] = [];
  for (const row of rows) {
    const group = groups.at(-1);
    if (group !== undefined && keyOf(group[0]) === keyOf(row)) group.push(row);
    else groups.push([row]);
  }
  return groups;
}
