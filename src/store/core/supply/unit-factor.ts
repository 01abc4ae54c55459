import { type TradeUnit, tradeUnit } from './trade-units.js';

export type UnitFactor =
  /** So many units of use in one unit of purchase, by the units alone */
  | { readonly kind: 'fixed'; readonly factor: number }
  /** The item says how many: a drum of so many litres, a litre of so many kilograms */
  | { readonly kind: 'of the item' }
  | { readonly kind: 'unknown unit'; readonly code: string; readonly why: string };

/**
 * How many units of use are in one unit of purchase, where the two units say so by themselves.
 *
 * @example unitFactor('MTQ', 'LTR') // => {"kind":"fixed","factor":1000}
 * @example unitFactor('XIH', 'LTR') // => {"kind":"of the item"}
 */
export function unitFactor(purchaseUnit: string, useUnit: string): UnitFactor {
  if (purchaseUnit === useUnit) return { kind: 'fixed', factor: 1 };
  const bought = tradeUnit(purchaseUnit);
  const used = tradeUnit(useUnit);
  if (bought.kind === 'unknown') return { kind: 'unknown unit', code: purchaseUnit, why: bought.why };
  if (used.kind === 'unknown') return { kind: 'unknown unit', code: useUnit, why: used.why };
  const sizes = sizesOf(bought, used);
  return sizes === null ? { kind: 'of the item' } : { kind: 'fixed', factor: round(sizes[0] / sizes[1]) };
}

function sizesOf(bought: TradeUnit, used: TradeUnit): [number, number] | null {
  if (bought.kind === 'measure' && used.kind === 'measure') return bought.measure === used.measure ? [bought.factor, used.factor] : null;
  if (bought.kind !== 'count' || used.kind !== 'count') return null;
  return bought.pieces === null || used.pieces === null ? null : [bought.pieces, used.pieces];
}

const round = (value: number) => Number(value.toPrecision(12));

/**
 * What is wrong with the factor between a unit of purchase and the unit of use; null where nothing is.
 *
 * @example unitProblem('MTQ', 'LTR', 1) // => "1 MTQ is 1000 LTR, not 1"
 * @example unitProblem('XIH', 'LTR', 60) // => null
 */
export function unitProblem(purchaseUnit: string, useUnit: string, unitsPerPurchase: number): string | null {
  const known = unitFactor(purchaseUnit, useUnit);
  if (known.kind === 'unknown unit') return `${known.code} ${known.why}`;
  if (known.kind === 'of the item' || Math.abs(known.factor - unitsPerPurchase) <= 1e-6 * Math.max(1, known.factor)) return null;
  return `1 ${purchaseUnit} is ${known.factor} ${useUnit}, not ${unitsPerPurchase}`;
}

export interface ItemUnits {
  readonly useUnit: string;
  readonly purchaseUnit: string;
  readonly unitsPerPurchase: number;
}

/**
 * How many units of use one `unit` of an item is: its unit of use, its unit of purchase, or another measure of the same kind.
 * Null where it does not convert.
 *
 * @example useUnitsIn('MLT', { useUnit: 'LTR', purchaseUnit: 'XIH', unitsPerPurchase: 60 }) // => 0.001
 * @example useUnitsIn('KGM', { useUnit: 'LTR', purchaseUnit: 'XIH', unitsPerPurchase: 60 }) // => null
 */
export function useUnitsIn(unit: string, { useUnit, purchaseUnit, unitsPerPurchase }: ItemUnits): number | null {
  if (unit === purchaseUnit) return unitsPerPurchase;
  const direct = unitFactor(unit, useUnit);
  if (direct.kind === 'fixed') return direct.factor;
  const overPurchase = unitFactor(unit, purchaseUnit);
  return overPurchase.kind === 'fixed' ? round(overPurchase.factor * unitsPerPurchase) : null;
}
