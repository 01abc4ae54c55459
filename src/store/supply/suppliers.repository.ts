import type { Reader } from '../../app/index.js';
import type { Supplier } from '../../generated/prisma/client.js';
import { NamedRecords } from '../../registry/index.js';
import type { TableRow } from '../csv/table-file.js';

export type SupplierRow = Supplier;

export const supplierRecords = new NamedRecords<SupplierRow>({
  what: 'supplier',
  table: (reader) => reader.supplier,
  orderBy: 'name',
  searched: ['name', 'contacts', 'customerNumber', 'note'],
  include: {},
});

/** Orders that are not over. */
export const openOrdersOf = (reader: Reader, supplierId: string) =>
  reader.purchaseOrder.findMany({ where: { supplierId, endedAt: null }, select: { no: true }, orderBy: { no: 'asc' } });

/** Keeps the supplier as it is until the end of the transaction; null: there is none. */
export async function holdSupplier(tx: Reader, id: string): Promise<SupplierRow | null> {
  await tx.$queryRaw`SELECT 1 FROM supplier WHERE id = ${id}::uuid FOR SHARE`;
  return tx.supplier.findUnique({ where: { id } });
}

/** As the table of suppliers has them. */
export const supplierTable = (reader: Reader) =>
  reader.$queryRaw<TableRow[]>`
    SELECT name, currency, email, contacts, customer_number AS "customer number", lead_days AS "lead days", trim_scale(minimum_order)::text AS "minimum order",
           order_weekday AS "order weekday", trim_scale(order_cost)::text AS "order cost", note FROM supplier WHERE ended_on IS NULL ORDER BY name`;
