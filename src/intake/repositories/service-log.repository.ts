import { Injectable } from '@nestjs/common';
import { type Caller, Database } from '../../app/index.js';
import { SERVICE_LOG_SQL } from './service-log-sql.js';

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

const LOG = `
  WITH entry AS (${SERVICE_LOG_SQL})
  SELECT e.id, e.kind, e.at, e.position_id AS "positionId", p.name AS "positionName", e.what, coalesce(e.by, '') AS by, e.note
    FROM entry e LEFT JOIN position p ON p.id = e.position_id
   WHERE (e.at, e.id) < ($2::timestamptz, $3)
     AND ($4 = '' OR e.what ILIKE $5 OR e.note ILIKE $5 OR e.kind ILIKE $5 OR e.by ILIKE $5 OR p.name ILIKE $5)
   ORDER BY e.at DESC, e.id DESC LIMIT $6`;

/** All that was done at a skid. */
@Injectable()
export class ServiceLogRepository {
  constructor(private readonly database: Database) {}

  /** The latest first; entries of one moment by their key. */
  async list(caller: Caller, skidId: string, { find, behind, take }: ServiceLogPart): Promise<ServiceLogRow[]> {
    const pattern = `%${find.replaceAll(/[\\%_]/g, '\\$&')}%`;
    const [at, key] = behind ?? ['infinity', ''];
    return this.database.readFor(caller, (reader) => reader.$queryRawUnsafe<ServiceLogRow[]>(LOG, skidId, at, key, find, pattern, take));
  }
}
