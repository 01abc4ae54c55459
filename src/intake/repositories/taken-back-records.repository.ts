import { Injectable } from '@nestjs/common';
import type { Reader } from '../../app/index.js';

/** The tables of facts that a load writes to, those that point to others first. */
const TABLES = ['clean', 'meter_reading', 'hand_value', 'hand_reading', 'service_entry', 'tank_dip', 'tank_delivery'] as const;

/** Facts that turned out not to be so leave the record, and stay readable aside. */
@Injectable()
export class TakenBackRecords {
  async takeBack(tx: Reader, skidId: string, loadNo: number, byLoadNo: number): Promise<void> {
    for (const table of TABLES) {
      // A sheet of readings stays while readings of another load stand on it.
      const stands = table === 'hand_reading' ? 'AND NOT EXISTS (SELECT 1 FROM hand_value v WHERE v.hand_reading_id = t.id)' : '';
      await tx.$executeRawUnsafe(
        `WITH gone AS (DELETE FROM "${table}" t WHERE t.load_no = $1::int ${stands} RETURNING to_jsonb(t.*) AS record)
         INSERT INTO replaced_record (skid_id, kind, record, load_no, replaced_by_load) SELECT $2::uuid, $3, record, $1::int, $4::int FROM gone`,
        loadNo,
        skidId,
        table,
        byLoadNo,
      );
    }
  }
}
