import { Injectable } from '@nestjs/common';
import { Database, type Reader, viewOf } from '../../../app/index.js';
import { type JointLine, type JointOrder, ordersTogether } from '../../core/orders/order-with-it.js';
import type { WantedLineDto } from '../../orders/orders.dto.js';
import { JointLineView, type JointOrdersQuery, JointOrdersView, JointOrderView } from './joint-orders.dto.js';
import { type JointRow, jointRows, supplierMinimums } from './joint-orders.repository.js';

interface Together {
  readonly orders: readonly JointOrder[];
  readonly rows: ReadonlyMap<string, JointRow>;
  readonly suppliers: ReadonlyMap<string, { readonly name: string; readonly currency: string; readonly minimumOrder: string | null }>;
}

/** What is due from one supplier, and what an order for it takes along. */
@Injectable()
export class JointOrders {
  constructor(private readonly database: Database) {}

  async list({ placeId, supplierId }: JointOrdersQuery): Promise<JointOrdersView> {
    const together = await this.together(this.database.prisma, placeId ?? null, supplierId ?? null);
    const views = together.orders.map((order) => orderView(order, together));
    const name = ({ supplierName, placeName }: JointOrderView) => `${supplierName} ${placeName}`;
    return viewOf(JointOrdersView, { items: views.toSorted((a, b) => name(a).localeCompare(name(b))) });
  }

  /** What is not due and comes along, as it is wanted: what pays, and what fills up to the minimum. */
  async along(tx: Reader, placeId: string | null, supplierId: string | null): Promise<WantedLineDto[]> {
    const { orders, rows } = await this.together(tx, placeId, supplierId);
    return orders.flatMap(({ withIt, toMinimum }) =>
      [...withIt, ...toMinimum].flatMap((id): WantedLineDto[] => {
        const row = rows.get(id);
        if (row?.alongWith == null) return [];
        const { itemId, placeId: place, alongWith, orderBy, neededBy, canOrder } = row;
        const { useQuantity: quantity, supplierId: from } = alongWith;
        return [{ itemId, placeId: place, quantity, supplierId: from, orderBy, neededOn: neededBy, comesAlong: canOrder }];
      }),
    );
  }

  private async together(reader: Reader, placeId: string | null, supplierId: string | null): Promise<Together> {
    const rows = new Map((await jointRows(reader, placeId)).map((row) => [row.id, row]));
    const lines = [...rows.values()].flatMap(toLine).filter((line) => supplierId === null || line.supplierId === supplierId);
    const ids = [...new Set(lines.map((line) => line.supplierId))];
    const suppliers = new Map((await supplierMinimums(reader, ids)).map(({ id, ...terms }) => [id, terms]));
    const minimumOf = (id: string) => (suppliers.get(id)?.minimumOrder == null ? null : Number(suppliers.get(id)?.minimumOrder));
    return { orders: ordersTogether(lines, minimumOf), rows, suppliers };
  }
}

/** Of whom nobody is known to sell it, no order is made. */
function toLine(row: JointRow): JointLine[] {
  const { id, placeId, isDue, canOrder, orderBy, decidedSupplierId } = row;
  const bought = boughtAs(row);
  const supplierId = decidedSupplierId ?? bought?.supplierId;
  return supplierId === undefined ? [] : [{ id, supplierId, placeId, isDue, canOrder, orderBy, value: worthOf(row) }];
}

const boughtAs = ({ purchase, alongWith }: JointRow) => purchase ?? alongWith;
const quantityOf = (row: JointRow) => row.decidedQuantity ?? boughtAs(row)?.useQuantity ?? '0';

/** At the price that the list knows: of another supplier than it proposes, none is known here. */
function worthOf(row: JointRow): number | null {
  const bought = boughtAs(row);
  if (bought?.value == null || (row.decidedSupplierId !== null && row.decidedSupplierId !== bought.supplierId)) return null;
  return (Number(bought.value) * Number(quantityOf(row))) / Number(bought.useQuantity);
}

const money = (value: number) => String(Number(value.toFixed(4)));

function lineView(row: JointRow): JointLineView {
  const { id: lineId, itemId, itemCode, itemName, unit, orderBy } = row;
  const value = worthOf(row);
  return viewOf(JointLineView, { lineId, itemId, itemCode, itemName, unit, orderBy, quantity: quantityOf(row), value: value === null ? null : money(value) });
}

function orderView({ supplierId, placeId, due, withIt, toMinimum, ...sums }: JointOrder, { rows, suppliers }: Together): JointOrderView {
  const lines = (ids: readonly string[]) => ids.flatMap((id) => rows.get(id) ?? []).map(lineView);
  const supplier = suppliers.get(supplierId);
  return viewOf(JointOrderView, {
    supplierId,
    supplierName: supplier?.name ?? '',
    currency: supplier?.currency ?? '',
    placeId,
    placeName: rows.get(due[0] ?? '')?.placeName ?? '',
    due: lines(due),
    withIt: lines(withIt),
    toMinimum: lines(toMinimum),
    valueDue: money(sums.valueDue),
    valueOfAll: money(sums.valueOfAll),
    minimumOrder: supplier?.minimumOrder ?? null,
    short: money(sums.short),
    withoutPrice: sums.withoutPrice,
  });
}
