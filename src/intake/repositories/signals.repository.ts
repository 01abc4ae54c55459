import { Injectable } from '@nestjs/common';
import type { SignalCode } from '../../shared/signals.js';
import type { Transaction } from './transactions.repository.js';

export interface SignalOfSkid {
  readonly code: SignalCode;
  readonly positionId: string | null;
}

/** The short numbers by which samples know their signal. */
@Injectable()
export class SignalsRepository {
  /** In the order of the signals; those that are not known yet are made. */
  async idsOf(tx: Transaction, skidId: string, signals: readonly SignalOfSkid[]): Promise<number[]> {
    await tx.query(
      `INSERT INTO signal (skid_id, position_id, code) SELECT $1, s."positionId", s.code FROM jsonb_to_recordset($2::jsonb) AS s(code text, "positionId" uuid) ON CONFLICT DO NOTHING`,
      [skidId, JSON.stringify(signals)],
    );
    const known = await this.ofSkid(tx, skidId);
    return signals.map(({ code, positionId }) => known.find((each) => each.code === code && each.positionId === positionId)?.id ?? 0);
  }

  async ofSkid(tx: Transaction, skidId: string): Promise<(SignalOfSkid & { readonly id: number })[]> {
    const { rows } = await tx.query<SignalOfSkid & { id: number }>('SELECT id, code, position_id AS "positionId" FROM signal WHERE skid_id = $1', [skidId]);
    return rows;
  }
}
