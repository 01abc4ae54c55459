import { Injectable } from '@nestjs/common';
import { Database, InvalidRequest, NotFound, readCursor, toPage, viewOf } from '../../app/index.js';
import type { TableRow } from '../csv/table-file.js';
import { lineView } from './line-views.js';
import type { ReorderQuery, ReorderTableQuery } from './reorder.dto.js';
import { type LineRow, lastRun, lineOfId, linesPage, linesWhole } from './reorder.repository.js';
import { type ReorderLineView, ReorderPageView } from './reorder-views.dto.js';

/** The reorder list as people read it: computed before, so that it is read at once. */
@Injectable()
export class ReorderList {
  constructor(private readonly database: Database) {}

  async page(query: ReorderQuery): Promise<ReorderPageView> {
    const { prisma } = this.database;
    const offset = offsetOf(query.cursor);
    const rows = await linesPage(prisma, query, offset);
    const { computedAt } = await lastRun(prisma);
    return viewOf(ReorderPageView, { ...toPage(rows, query.limit, view, () => [offset + query.limit]), total: rows[0]?.total ?? 0, computedAt });
  }

  async line(id: string): Promise<ReorderLineView> {
    const row = await lineOfId(this.database.prisma, id);
    if (row === null) throw new NotFound('line of the reorder list', id);
    return view(row);
  }

  async table(query: ReorderTableQuery): Promise<TableRow[]> {
    return (await linesWhole(this.database.prisma, query)).map(tableRow);
  }
}

function offsetOf(cursor: string | undefined): number {
  const [offset = 0] = readCursor(cursor, 1) ?? [];
  if (typeof offset === 'number' && Number.isInteger(offset) && offset >= 0 && offset < 1e6) return offset;
  throw new InvalidRequest('The cursor is not one that this list gave', [{ pointer: 'cursor', message: `"${cursor}" is not a cursor` }]);
}

const view = (row: LineRow) => lineView(row, row.detail, row.decision);

function tableRow({ itemCode, itemName, unit, placeName, detail, decision }: LineRow): TableRow {
  const {
    action,
    quantity,
    purchase,
    transfers,
    orderBy,
    neededBy,
    need,
    onHand,
    reserved,
    onOrder,
    onTheWay,
    position,
    point,
    now,
    reasons,
    ifItWaits,
    pace,
  } = detail;
  const where = (day: string | null) => (day === null ? '' : ` on ${day}`);
  return {
    item: itemCode,
    name: itemName,
    place: placeName,
    action,
    quantity,
    unit,
    supplier: purchase?.supplierName ?? null,
    'units of purchase': purchase?.quantity ?? null,
    value: purchase?.value ?? null,
    currency: purchase?.currency ?? null,
    'from other places': transfers.map((from) => `${from.quantity} from ${from.fromPlaceName}`).join('; '),
    'order by': orderBy,
    'needed by': neededBy,
    'on hand': onHand,
    reserved,
    'on order': onOrder,
    'on the way': onTheWay,
    position,
    'order point': point,
    'need, as likely as not': need.p50,
    'need, nine in ten': need.p90,
    'days covered': Math.round(need.daysCovered),
    'enough now': Number(now.enough.toFixed(4)),
    why: reasons.map(({ text, skidName, day }) => `${text}${skidName === null ? '' : ` at ${skidName}`}${where(day)}`).join('; '),
    'if it waits': ifItWaits?.text ?? '',
    pace: pace.kind,
    decision: decision?.state ?? '',
    reason: decision?.reason ?? '',
  };
}

export const TABLE_COLUMNS = [
  'item',
  'name',
  'place',
  'action',
  'quantity',
  'unit',
  'supplier',
  'units of purchase',
  'value',
  'currency',
  'from other places',
  'order by',
  'needed by',
  'on hand',
  'reserved',
  'on order',
  'on the way',
  'position',
  'order point',
  'need, as likely as not',
  'need, nine in ten',
  'days covered',
  'enough now',
  'why',
  'if it waits',
  'pace',
  'decision',
  'reason',
] as const;
