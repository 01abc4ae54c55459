import { Injectable } from '@nestjs/common';
import { newId } from '../../app/index.js';
import type { Statements } from './transactions.repository.js';

export interface PartChange {
  readonly positionId: string;
  readonly clientId: string;
  readonly at: Date;
  readonly by: string;
  /** Why the part before was removed */
  readonly reason: string | null;
}

export interface FittedPart extends PartChange {
  readonly itemCode: string;
  readonly serialNumber: string | null;
  readonly lot: string | null;
  readonly setCount: number;
}

export type ChangeOutcome = 'kept' | 'known' | { readonly refused: string };

interface FittingRow {
  readonly id: string;
  readonly partId: string;
  readonly positionId: string;
  readonly itemCode: string;
  readonly serialNumber: string | null;
  readonly fittedAt: Date;
  readonly removedAt: Date | null;
}

/** Part changes that a log tells after the fact: each finds its place between those that are known. */
@Injectable()
export class FittingsRepository {
  async fit(tx: Statements, change: FittedPart): Promise<ChangeOutcome> {
    const { positionId, at, itemCode, serialNumber } = change;
    const atPosition = await this.ofPosition(tx, positionId);
    const same = atPosition.find((each) => each.fittedAt.getTime() === at.getTime());
    if (same !== undefined) {
      const known = same.itemCode === itemCode && (serialNumber === null || same.serialNumber === serialNumber);
      return known ? 'known' : { refused: 'another part was fitted at this position at that time' };
    }
    const { rows: items } = await tx.query<{ id: string }>('SELECT id FROM item WHERE code = $1', [itemCode]);
    const itemId = items[0]?.id;
    if (itemId === undefined) return { refused: 'is no item of the catalogue' };
    const next = atPosition.find((each) => each.fittedAt > at);
    const until = next?.fittedAt ?? null;
    const partId = serialNumber === null ? null : await this.partWithSerial(tx, itemId, serialNumber);
    if (partId !== null && (await this.isElsewhere(tx, partId, positionId, at, until))) return { refused: 'is fitted at another position in that time' };

    await this.endAt(tx, atPosition, change);
    const id = partId ?? (await this.newPart(tx, itemId, change));
    await tx.query(
      `INSERT INTO fitting (id, client_id, position_id, part_id, fitted_at, fitted_by, removed_at, removed_by) VALUES ($1, $2, $3, $4, $5, $6, $7, $8)`,
      [newId(), change.clientId, positionId, id, at, change.by, until, until === null ? null : change.by],
    );
    return 'kept';
  }

  async remove(tx: Statements, change: PartChange): Promise<ChangeOutcome> {
    const atPosition = await this.ofPosition(tx, change.positionId);
    if (atPosition.some(({ removedAt }) => removedAt?.getTime() === change.at.getTime())) return 'known';
    return (await this.endAt(tx, atPosition, change)) ? 'kept' : { refused: 'no part was fitted there at that time' };
  }

  /** Ends the fitting that lasts beyond the moment. */
  private async endAt(tx: Statements, fittings: readonly FittingRow[], { at, by, reason }: PartChange): Promise<boolean> {
    const standing = fittings.findLast((each) => each.fittedAt < at && (each.removedAt === null || each.removedAt > at));
    if (standing === undefined) return false;
    await tx.query('UPDATE fitting SET removed_at = $2, removed_by = $3, removal_reason = coalesce($4, removal_reason) WHERE id = $1', [
      standing.id,
      at,
      by,
      reason,
    ]);
    return true;
  }

  private async ofPosition(tx: Statements, positionId: string): Promise<FittingRow[]> {
    await tx.query('SELECT 1 FROM position WHERE id = $1 FOR UPDATE', [positionId]);
    const { rows } = await tx.query<FittingRow>(
      `SELECT f.id, f.part_id AS "partId", f.position_id AS "positionId", i.code AS "itemCode", p.serial_number AS "serialNumber",
              f.fitted_at AS "fittedAt", f.removed_at AS "removedAt"
         FROM fitting f JOIN part p ON p.id = f.part_id JOIN item i ON i.id = p.item_id WHERE f.position_id = $1 ORDER BY f.fitted_at`,
      [positionId],
    );
    return rows;
  }

  private async partWithSerial(tx: Statements, itemId: string, serialNumber: string): Promise<string | null> {
    const { rows } = await tx.query<{ id: string }>('SELECT id FROM part WHERE item_id = $1 AND serial_number = $2', [itemId, serialNumber]);
    return rows[0]?.id ?? null;
  }

  private async isElsewhere(tx: Statements, partId: string, positionId: string, from: Date, until: Date | null): Promise<boolean> {
    const { rows } = await tx.query(
      `SELECT 1 FROM fitting WHERE part_id = $1 AND position_id <> $2 AND fitted_at < coalesce($4::timestamptz, 'infinity') AND coalesce(removed_at, 'infinity') > $3::timestamptz LIMIT 1`,
      [partId, positionId, from, until],
    );
    return rows.length > 0;
  }

  private async newPart(tx: Statements, itemId: string, { serialNumber, lot, setCount }: FittedPart): Promise<string> {
    const id = newId();
    await tx.query('INSERT INTO part (id, item_id, serial_number, set_count, lot) VALUES ($1, $2, $3, $4, $5)', [id, itemId, serialNumber, setCount, lot]);
    return id;
  }
}
