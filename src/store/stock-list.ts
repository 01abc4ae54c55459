import { Injectable } from '@nestjs/common';
import { Database, NotFound, type Reader, toPage, viewOf } from '../app/index.js';
import type { PostKind } from './core/move-problem.js';
import type { OwnerKind } from './core/pick-lines.js';
import { type MovesQuery, StockLineView, StockMovesPageView, StockMoveView, StockPageView, StockPostView, type StockQuery } from './stock.dto.js';
import { type MoveRow, movesOfPost, movesPage, stockPage } from './stock.repository.js';

/** What lies where, and how it came there. */
@Injectable()
export class StockList {
  constructor(private readonly database: Database) {}

  async stock(query: StockQuery): Promise<StockPageView> {
    const rows = await stockPage(this.database.prisma, query);
    const page = toPage(
      rows,
      query.limit,
      ({ lineId: _lineId, ...row }) => viewOf(StockLineView, row),
      ({ placeName, itemCode, lineId }) => [placeName, itemCode, lineId],
    );
    return viewOf(StockPageView, page);
  }

  async moves(query: MovesQuery): Promise<StockMovesPageView> {
    const rows = await movesPage(this.database.prisma, query);
    return viewOf(
      StockMovesPageView,
      toPage(rows, query.limit, toMoveView, ({ id }) => [String(id)]),
    );
  }

  async post(id: string, reader: Reader = this.database.prisma): Promise<StockPostView> {
    const rows = await movesOfPost(reader, id);
    const post = rows[0]?.post;
    if (post === undefined) throw new NotFound('stock post', id);
    const { kind, at, enteredAt, by, note, expiredReason, reverses } = post;
    return viewOf(StockPostView, { id, kind: kind as PostKind, at, enteredAt, by, note, expiredReason, reverses, moves: rows.map(toMoveView) });
  }
}

function toMoveView({ id, post, item, part, fromPlace, toPlace, quantity, ...row }: MoveRow): StockMoveView {
  const { itemId, lot, partId, fromPlaceId, toPlaceId, correction, owner, ownerId, unitCost } = row;
  const { kind, at, enteredAt, by, note, jobId, reverses } = post;
  return viewOf(StockMoveView, {
    id: String(id),
    postId: post.id,
    kind: kind as PostKind,
    at,
    enteredAt,
    by,
    note,
    jobId,
    itemId,
    itemCode: item.code,
    itemName: item.name,
    unit: item.unit,
    lot,
    partId,
    quantity: quantity.toFixed(),
    fromPlaceId,
    fromPlaceName: fromPlace?.name ?? null,
    toPlaceId,
    toPlaceName: toPlace?.name ?? null,
    correction,
    owner: owner as OwnerKind,
    ownerId,
    serialNumber: part?.serialNumber ?? null,
    unitCost: unitCost?.toFixed() ?? null,
    reverses,
  });
}
