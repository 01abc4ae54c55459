import { Injectable } from '@nestjs/common';
import { Database } from '../../app/index.js';

export interface FittingRow {
  readonly fittingId: string;
  readonly positionId: string;
  readonly partId: string;
  readonly positionKind: string;
  readonly fittedAt: Date;
  readonly removedAt: Date | null;
  readonly reason: string | null;
  /** Something broke down there in the month before it was removed */
  readonly brokeDown: boolean;
}

@Injectable()
export class FittingsRepository {
  constructor(private readonly database: Database) {}

  /** Every part that is or was fitted at the skid: one query. */
  async ofSkid(skidId: string): Promise<FittingRow[]> {
    const { rows } = await this.database.pool.query<FittingRow>(
      `SELECT f.id AS "fittingId", f.position_id AS "positionId", f.part_id AS "partId", p.kind AS "positionKind", f.fitted_at AS "fittedAt", f.removed_at AS "removedAt", f.removal_reason AS reason,
              EXISTS (SELECT 1 FROM breakdown b WHERE b.position_id = p.id AND b.noticed_at BETWEEN f.removed_at - interval '30 days' AND f.removed_at) AS "brokeDown"
         FROM fitting f JOIN position p ON p.id = f.position_id WHERE p.skid_id = $1 ORDER BY f.fitted_at, f.id`,
      [skidId],
    );
    return rows;
  }
}
