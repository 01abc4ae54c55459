import { type Caller, type Reader, takeEdited } from '../../app/index.js';
import type { Prisma } from '../../generated/prisma/client.js';

export type NewLine = Omit<Prisma.PurchaseOrderLineUncheckedCreateInput, 'id' | 'orderId' | 'no'>;
export type NewOrder = Omit<Prisma.PurchaseOrderUncheckedCreateInput, 'no' | 'lines' | 'changes' | 'receipts' | 'returns'> & { readonly id: string };

const numbered = (orderId: string, lines: readonly NewLine[]) => lines.map((line, at) => ({ ...line, orderId, no: at + 1 }));

export async function makeOrder(tx: Reader, order: NewOrder, lines: readonly NewLine[]): Promise<void> {
  await tx.purchaseOrder.create({ data: order, select: { id: true } });
  await tx.purchaseOrderLine.createMany({ data: numbered(order.id, lines) });
}

export async function replaceLines(tx: Reader, orderId: string, lines: readonly NewLine[]): Promise<void> {
  await tx.purchaseOrderLine.deleteMany({ where: { orderId } });
  await tx.purchaseOrderLine.createMany({ data: numbered(orderId, lines) });
}

/** Where the caller has seen the order as it is; without a version: whatever it is. */
export async function changeOrder(tx: Reader, id: string, version: number | null, columns: Prisma.PurchaseOrderUpdateManyMutationInput): Promise<void> {
  const where = version === null ? { id } : { id, version };
  const { count } = await tx.purchaseOrder.updateMany({ where, data: { ...columns, version: { increment: 1 } } });
  takeEdited(count === 1 ? [id] : [], 'purchase order');
}

/** Adds to the record of who did what. */
export async function tellChange(tx: Reader, orderId: string, caller: Pick<Caller, 'id' | 'name'>, at: Date, what: string, detail = ''): Promise<void> {
  await tx.purchaseOrderChange.create({ data: { orderId, at, byId: caller.id, by: caller.name, what, detail: detail.slice(0, 2000) }, select: { id: true } });
}

export const findReceipt = (tx: Reader, id: string) => tx.orderReceipt.findUnique({ where: { id } });
export const findReturn = (tx: Reader, id: string) => tx.supplierReturn.findUnique({ where: { id } });

export async function enterReceipt(
  tx: Reader,
  receipt: Prisma.OrderReceiptUncheckedCreateInput & { readonly id: string },
  lines: readonly Omit<Prisma.OrderReceiptLineCreateManyInput, 'receiptId'>[],
): Promise<void> {
  await tx.orderReceipt.create({ data: receipt, select: { id: true } });
  await tx.orderReceiptLine.createMany({ data: lines.map((line) => ({ ...line, receiptId: receipt.id })) });
}

export const markTakenBack = (tx: Reader, id: string, takenBackAt: Date) =>
  tx.orderReceipt.update({ where: { id }, data: { takenBackAt }, select: { id: true } });

export async function enterReturn(
  tx: Reader,
  back: Prisma.SupplierReturnUncheckedCreateInput & { readonly id: string },
  lines: readonly Omit<Prisma.SupplierReturnLineCreateManyInput, 'returnId'>[],
): Promise<void> {
  await tx.supplierReturn.create({ data: back, select: { id: true } });
  await tx.supplierReturnLine.createMany({ data: lines.map((line) => ({ ...line, returnId: back.id })) });
}
