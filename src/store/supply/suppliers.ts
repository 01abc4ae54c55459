import { Injectable } from '@nestjs/common';
import { Conflict, given, type Reader, viewOf } from '../../app/index.js';
import { dayOrNull, Register } from '../../registry/index.js';
import type { TableRow } from '../csv/table-file.js';
import { type SupplierDto, type SupplierEditDto, SupplierView } from './suppliers.dto.js';
import { openOrdersOf, type SupplierRow, supplierRecords, supplierTable } from './suppliers.repository.js';

@Injectable()
export class Suppliers extends Register<SupplierRow, SupplierDto, SupplierEditDto, SupplierView> {
  protected readonly records = supplierRecords;

  /** A draft would change its prices without anybody seeing it. */
  protected override async changedColumns(tx: Reader, row: SupplierRow, change: SupplierEditDto): Promise<object> {
    const open = change.currency === undefined || change.currency === row.currency ? [] : await openOrdersOf(tx, row.id);
    if (open.length > 0) throw new Conflict(`Orders in ${row.currency} are open: ${numbers(open)}. Close or cancel them first, then change the currency`);
    return given(change);
  }

  protected override async checkEnd(tx: Reader, { id }: SupplierRow): Promise<void> {
    const open = await openOrdersOf(tx, id);
    if (open.length > 0) throw new Conflict(`Orders are open: ${numbers(open)}. Close or cancel them first`);
  }

  table(): Promise<TableRow[]> {
    return supplierTable(this.database.prisma);
  }

  protected nameOf(row: SupplierRow): string {
    return row.name;
  }

  protected view(row: SupplierRow): SupplierView {
    const { id, name, currency, email, contacts, customerNumber, leadDays, minimumOrder, orderWeekday, orderCost, note, endedOn, version } = row;
    return viewOf(SupplierView, {
      id,
      name,
      currency,
      email,
      contacts,
      customerNumber,
      leadDays,
      minimumOrder: minimumOrder?.toFixed() ?? null,
      orderWeekday,
      orderCost: orderCost?.toFixed() ?? null,
      note,
      endedOn: dayOrNull(endedOn),
      version,
    });
  }
}

const numbers = (orders: readonly { no: number }[]) => orders.map(({ no }) => no).join(', ');
