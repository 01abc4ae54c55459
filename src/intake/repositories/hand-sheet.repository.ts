import { Injectable } from '@nestjs/common';
import { type Caller, Database } from '../../app/index.js';
import type { SignalCode } from '../../shared/signals.js';
import type { UnitCode } from '../../shared/units.js';

export interface LastValue {
  readonly signal: SignalCode;
  readonly value: number;
  readonly enteredUnit: UnitCode;
  readonly readingError: number | null;
  readonly at: Date;
}

/** What the person with the sheet in the hand saw last time. */
@Injectable()
export class HandSheetRepository {
  constructor(private readonly database: Database) {}

  async lastValues(caller: Caller, skidId: string): Promise<LastValue[]> {
    return this.database.readFor(
      caller,
      (reader) => reader.$queryRaw`
        SELECT DISTINCT ON (v.signal) v.signal, v.value, v.entered_unit AS "enteredUnit", v.reading_error AS "readingError", r.at
          FROM hand_value v JOIN hand_reading r ON r.id = v.hand_reading_id WHERE r.skid_id = ${skidId}::uuid ORDER BY v.signal, r.at DESC`,
    );
  }

  async lastMeterReadings(caller: Caller, skidId: string): Promise<{ meterId: string; value: number; at: Date }[]> {
    return this.database.readFor(
      caller,
      (reader) => reader.$queryRaw`
        SELECT DISTINCT ON (r.meter_id) r.meter_id AS "meterId", r.value, r.at
          FROM meter_reading r JOIN meter m ON m.id = r.meter_id JOIN position p ON p.id = m.position_id
         WHERE p.skid_id = ${skidId}::uuid ORDER BY r.meter_id, r.at DESC`,
    );
  }

  async lastDips(caller: Caller, skidId: string): Promise<{ tankId: string; levelM: number; strengthGL: number | null; at: Date }[]> {
    return this.database.readFor(
      caller,
      (reader) => reader.$queryRaw`
        SELECT DISTINCT ON (d.tank_id) d.tank_id AS "tankId", d.level_m AS "levelM", d.strength_g_l AS "strengthGL", d.at
          FROM tank_dip d JOIN tank t ON t.id = d.tank_id WHERE t.skid_id = ${skidId}::uuid ORDER BY d.tank_id, d.at DESC`,
    );
  }

  /** Null: nobody has listed the gauges of this skid. */
  async listedGauges(skidId: string): Promise<unknown> {
    const profile = await this.database.prisma.logProfile.findFirst({ where: { skidId, kind: 'hand', endedOn: null }, orderBy: { id: 'desc' } });
    return profile?.definition ?? null;
  }
}
