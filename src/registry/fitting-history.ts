import { Injectable } from '@nestjs/common';
import { type Caller, Database, type PageOf, type PageQuery, toPage, viewOf } from '../app/index.js';
import { FittingView, type PartsQuery, PartView } from './fittings.dto.js';
import { type FittingRow, fittingsOf, listParts, type PartRow } from './fittings.repository.js';
import { positionRecords } from './positions.repository.js';

/** What was fitted where, and which parts there are. */
@Injectable()
export class FittingHistory {
  constructor(private readonly database: Database) {}

  /** The latest first */
  ofPosition(caller: Caller, positionId: string, query: PageQuery): Promise<PageOf<FittingView>> {
    return this.database.readFor(caller, async (reader) => {
      await positionRecords.find(reader, positionId);
      return toPage(await fittingsOf(reader, positionId, query), query.limit, toFittingView, ({ fittedAt }) => [fittedAt.getTime()]);
    });
  }

  async parts(caller: Caller, query: PartsQuery): Promise<PageOf<PartView>> {
    const rows = await this.database.readFor(caller, (reader) => listParts(reader, query));
    return toPage(rows, query.limit, toPartView, ({ id }) => [id]);
  }
}

export function toFittingView({ id, positionId, partId, part, fittedAt, fittedBy, removedAt, removedBy, removalReason }: FittingRow): FittingView {
  const { itemId, item, serialNumber, setCount, lot } = part;
  const what = { partId, itemId, itemCode: item.code, itemName: item.name, serialNumber, setCount, lot };
  return viewOf(FittingView, { id, positionId, ...what, fittedAt, fittedBy, removedAt, removedBy, removalReason });
}

function toPartView({ id, itemId, item, serialNumber, setCount, lot, fittings: [fitting] }: PartRow): PartView {
  return viewOf(PartView, {
    id,
    itemId,
    itemCode: item.code,
    itemName: item.name,
    serialNumber,
    setCount,
    lot,
    positionId: fitting?.positionId ?? null,
    positionName: fitting?.position.name ?? null,
    skidId: fitting?.position.skid.id ?? null,
    skidName: fitting?.position.skid.name ?? null,
  });
}
