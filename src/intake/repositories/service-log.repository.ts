import { Injectable } from '@nestjs/common';
import { type Caller, Database } from '../../app/index.js';

export interface ServiceLogRow {
  readonly id: string;
  readonly kind: string;
  readonly at: Date;
  readonly positionId: string | null;
  readonly positionName: string | null;
  readonly what: string;
  readonly by: string;
  readonly note: string;
}

export interface ServiceLogPart {
  readonly find: string;
  /** Moment and key of the last entry of the part before */
  readonly behind: readonly [at: string, key: string] | null;
  readonly take: number;
}

/** All that was done at a skid, from the tables of five kinds of facts. */
@Injectable()
export class ServiceLogRepository {
  constructor(private readonly database: Database) {}

  /** The latest first; entries of one moment by their key. */
  async list(caller: Caller, skidId: string, { find, behind, take }: ServiceLogPart): Promise<ServiceLogRow[]> {
    const pattern = `%${find.replaceAll(/[\\%_]/g, '\\$&')}%`;
    const [at, key] = behind ?? ['infinity', ''];
    return this.database.readFor(
      caller,
      (reader) => reader.$queryRaw`
        WITH entry AS (
          SELECT 'clean ' || c.id AS id, 'clean' AS kind, c.at, NULL::uuid AS position_id,
                 c.kind || ' with ' || c.chemical || coalesce(', ' || c.strength_mg_l || ' mg/L', '') || coalesce(', ' || c.contact_minutes || ' min', '') AS what,
                 l.by, c.note
            FROM clean c LEFT JOIN load l ON l.no = c.load_no WHERE c.skid_id = ${skidId}::uuid
          UNION ALL
          SELECT 'fitted ' || f.id, 'fitted', f.fitted_at, f.position_id, i.name || coalesce(', serial ' || pt.serial_number, '') || coalesce(', lot ' || pt.lot, ''), f.fitted_by, ''
            FROM fitting f JOIN position p ON p.id = f.position_id JOIN part pt ON pt.id = f.part_id JOIN item i ON i.id = pt.item_id WHERE p.skid_id = ${skidId}::uuid
          UNION ALL
          SELECT 'removed ' || f.id, 'removed', f.removed_at, f.position_id, i.name || coalesce(', serial ' || pt.serial_number, ''), coalesce(f.removed_by, ''), coalesce(f.removal_reason, '')
            FROM fitting f JOIN position p ON p.id = f.position_id JOIN part pt ON pt.id = f.part_id JOIN item i ON i.id = pt.item_id
           WHERE p.skid_id = ${skidId}::uuid AND f.removed_at IS NOT NULL
          UNION ALL
          SELECT 'service ' || s.id, 'service', s.at, s.position_id, s.task || coalesce(', ' || s.minutes || ' min', ''), s.done_by, s.note FROM service_entry s WHERE s.skid_id = ${skidId}::uuid
          UNION ALL
          SELECT 'exchange ' || m.id || ' ' || r.at, 'exchange', r.at, m.position_id, m.kind || ': meter exchanged at ' || coalesce(r.old_final::text, '?') || ', new one begins at ' || r.value, l.by, ''
            FROM meter_reading r JOIN meter m ON m.id = r.meter_id JOIN position p ON p.id = m.position_id LEFT JOIN load l ON l.no = r.load_no
           WHERE p.skid_id = ${skidId}::uuid AND r.kind = 'exchange'
          UNION ALL
          SELECT 'state ' || c.id, 'state', c.at, NULL, c.state, c.by, c.note FROM service_state_change c WHERE c.skid_id = ${skidId}::uuid
        )
        SELECT e.id, e.kind, e.at, e.position_id AS "positionId", p.name AS "positionName", e.what, coalesce(e.by, '') AS by, e.note
          FROM entry e LEFT JOIN position p ON p.id = e.position_id
         WHERE (e.at, e.id) < (${at}::timestamptz, ${key})
           AND (${find} = '' OR e.what ILIKE ${pattern} OR e.note ILIKE ${pattern} OR e.kind ILIKE ${pattern} OR e.by ILIKE ${pattern} OR p.name ILIKE ${pattern})
         ORDER BY e.at DESC, e.id DESC LIMIT ${take}`,
    );
  }
}
