import { type Millionths, millionthsOf, quantityText } from '../quantity.js';

export interface LineFacts {
  /** In units of use */
  readonly ordered: string;
  readonly received: readonly { readonly outcome: 'good' | 'damaged' | 'wrong'; readonly quantity: string }[];
  /** What went back and is sent anew */
  readonly toBeReplaced: readonly string[];
}

export interface LineProgress {
  /** Kept of what was ordered, without what went back */
  readonly good: string;
  readonly damaged: string;
  readonly wrong: string;
  /** Still to come */
  readonly open: string;
  /** Beyond what was ordered */
  readonly over: string;
}

const sum = (quantities: readonly string[]): Millionths => quantities.reduce((total, text) => total + (millionthsOf(text) ?? 0n), 0n);
const atLeastZero = (size: Millionths): Millionths => (size < 0n ? 0n : size);

/**
 * How far a line of an order has come. What is damaged or wrong does not fill the order: it stays open until what was ordered is there,
 * or somebody closes the order.
 *
 * @example lineProgress({ ordered: '10', received: [{ outcome: 'good', quantity: '6' }, { outcome: 'damaged', quantity: '4' }], toBeReplaced: [] }).open // => "4"
 * @example lineProgress({ ordered: '10', received: [{ outcome: 'good', quantity: '12' }], toBeReplaced: [] }).over // => "2"
 */
export function lineProgress({ ordered, received, toBeReplaced }: LineFacts): LineProgress {
  const of = (outcome: LineFacts['received'][number]['outcome']) => sum(received.filter((part) => part.outcome === outcome).map(({ quantity }) => quantity));
  const good = of('good') - sum(toBeReplaced);
  const left = sum([ordered]) - good;
  return {
    good: quantityText(atLeastZero(good)),
    damaged: quantityText(of('damaged')),
    wrong: quantityText(of('wrong')),
    open: quantityText(atLeastZero(left)),
    over: quantityText(atLeastZero(-left)),
  };
}

/**
 * A quantity in units of purchase as units of use, exact to the sixth decimal.
 *
 * @example inUseUnits('2.5', '60') // => "150"
 */
export function inUseUnits(quantity: string, unitsPerPurchase: string): string {
  const product = (millionthsOf(quantity) ?? 0n) * (millionthsOf(unitsPerPurchase) ?? 0n);
  return quantityText((product + 500_000n) / 1_000_000n);
}
