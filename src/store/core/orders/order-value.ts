import { type Millionths, millionthsOf, quantityText } from '../quantity.js';

interface PricedLine {
  /** In units of purchase */
  readonly quantity: string;
  /** Of one; null: not known */
  readonly price: string | null;
}

/**
 * What an order is worth in its own currency, and how many of its lines have no price and are left out.
 *
 * @example orderValue([{ quantity: '3', price: '84.5' }, { quantity: '1', price: null }]) // => {"value":"253.5","withoutPrice":1}
 */
export function orderValue(lines: readonly PricedLine[]): { value: string; withoutPrice: number } {
  const total = lines.reduce((sum, { quantity, price }) => sum + times(quantity, price ?? '0'), 0n);
  return { value: quantityText(total), withoutPrice: lines.filter(({ price }) => price === null).length };
}

/**
 * Product of two decimals, to the sixth decimal.
 *
 * @example product('253.5', '1.16') // => "294.06"
 */
export const product = (one: string, other: string): string => quantityText(times(one, other));

/**
 * What one unit of use costs, in the reckoning currency; null where the price or the rate is not known.
 *
 * @example unitCost({ price: '84.5', unitsPerPurchase: '60', rate: '1' }) // => "1.408333"
 */
export function unitCost({ price, unitsPerPurchase, rate }: { price: string | null; unitsPerPurchase: string; rate: string | null }): string | null {
  const units = millionthsOf(unitsPerPurchase) ?? 0n;
  if (price === null || rate === null || units <= 0n) return null;
  return quantityText((times(price, rate) * 1_000_000n + units / 2n) / units);
}

function times(one: string, other: string): Millionths {
  return ((millionthsOf(one) ?? 0n) * (millionthsOf(other) ?? 0n) + 500_000n) / 1_000_000n;
}
