import { Injectable } from '@nestjs/common';
import { group } from 'd3-array';
import { Database, Gather, NotFound, type Reader, toPage, viewOf } from '../app/index.js';
import type { TableRow } from './csv/table-file.js';
import {
  type MovesQuery,
  StockLineView,
  StockMovesPageView,
  StockMoveView,
  StockPageView,
  StockPostView,
  type StockQuery,
  type StockTableQuery,
} from './stock.dto.js';
import { type MoveRow, movesOfPosts, movesPage, stockPage } from './stock.repository.js';

/** What lies where, and how it came there. */
@Injectable()
export class StockList {
  /** Many ask for their posts at once, each when it was written. */
  private readonly posts: Gather<string, MoveRow[]>;

  constructor(private readonly database: Database) {
    this.posts = new Gather(async (ids) => {
      const byPost = group(await movesOfPosts(database.prisma, ids), ({ postId }) => postId);
      return ids.map((id) => ({ status: 'fulfilled', value: byPost.get(id.toLowerCase()) ?? [] }));
    });
  }

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

  async table(query: StockTableQuery): Promise<TableRow[]> {
    const rows = await stockPage(this.database.prisma, query);
    return rows.map((row) => ({
      place: row.placeName,
      item: row.itemCode,
      name: row.itemName,
      unit: row.unit,
      lot: row.lot,
      'serial number': row.serialNumber,
      'expires on': row.expiresOn,
      'preserve by': row.preserveBy,
      held: row.held,
      owner: row.owner,
      'owner name': row.ownerName,
      'on hand': row.onHand,
    }));
  }

  async moves(query: MovesQuery): Promise<StockMovesPageView> {
    const rows = await movesPage(this.database.prisma, query);
    return viewOf(
      StockMovesPageView,
      toPage(rows, query.limit, toMoveView, ({ id }) => [id]),
    );
  }

  async post(id: string, reader?: Reader): Promise<StockPostView> {
    const rows = reader === undefined ? await this.posts.ask(id) : await movesOfPosts(reader, [id]);
    const [first] = rows;
    if (first === undefined) throw new NotFound('stock post', id);
    const { kind, at, enteredAt, by, note, expiredReason, reverses } = first;
    return viewOf(StockPostView, { id, kind, at, enteredAt, by, note, expiredReason, reverses, moves: rows.map(toMoveView) });
  }
}

const toMoveView = ({ expiredReason: _ofThePost, ...row }: MoveRow): StockMoveView => viewOf(StockMoveView, row);
