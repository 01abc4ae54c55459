import { type FieldProblem, InvalidRequest, type Reader } from '../../app/index.js';
import { dateOf } from '../../registry/index.js';
import { unitFactor, useUnitsIn } from '../core/supply/unit-factor.js';
import { type OfferedItem, offersOfItems } from './offered-items.repository.js';
import type { NewLine } from './order-writes.repository.js';
import type { OrderLineDto } from './orders.dto.js';

/** The lines of an order as they are stored: what is left out comes from the supplier's offer. */
export async function linesOfOrder(tx: Reader, supplierId: string, lines: readonly OrderLineDto[], today: Date): Promise<NewLine[]> {
  const offered = await offersOfItems(
    tx,
    supplierId,
    lines.map(({ itemId }) => itemId),
    today,
  );
  const read = lines.map((line, at) => lineOf(line, offered.get(line.itemId), at));
  const problems = read.flatMap((one) => ('pointer' in one ? [one] : []));
  if (problems.length > 0) throw new InvalidRequest('The order has lines that need a change', problems);
  return read.flatMap((one) => ('pointer' in one ? [] : [one]));
}

function lineOf(line: OrderLineDto, item: OfferedItem | undefined, at: number): NewLine | FieldProblem {
  const problem = (field: string, message: string): FieldProblem => ({ pointer: `#/lines/${at}/${field}`, message });
  if (item === undefined) return problem('itemId', 'must be an item that has not ended');
  const { itemId, quantity, neededOn = null, reason = '', proposalId = null } = line;
  const { useUnit, offer } = item;
  const unit = line.unit ?? offer?.purchaseUnit ?? useUnit;
  const factor = offer === null ? ownFactor(unit, useUnit) : useUnitsIn(unit, { useUnit, ...offer, unitsPerPurchase: Number(offer.unitsPerPurchase) });
  if (factor === null) {
    const takes = offer === null ? useUnit : `${offer.purchaseUnit} or ${useUnit}`;
    return problem(
      'unit',
      `${unit} does not convert to ${useUnit} for this item: order in ${takes}, or enter an offer that says how many ${useUnit} are in one ${unit}`,
    );
  }
  const price = line.price ?? (offer?.price == null ? null : inUnit(offer.price, factor, Number(offer.unitsPerPurchase)));
  return {
    itemId,
    supplierCode: offer?.supplierCode ?? '',
    unit,
    unitsPerPurchase: String(factor),
    quantity,
    price,
    neededOn: neededOn === null ? null : dateOf(neededOn),
    reason,
    proposalId,
  };
}

function ownFactor(unit: string, useUnit: string): number | null {
  const known = unitFactor(unit, useUnit);
  return known.kind === 'fixed' ? known.factor : null;
}

/** A price of one unit of purchase, as that of another unit; to the fourth decimal, which is what a price has. */
function inUnit(price: string, factor: number, unitsPerPurchase: number): string {
  if (factor === unitsPerPurchase) return price;
  return ((Number(price) * factor) / unitsPerPurchase).toFixed(4);
}
