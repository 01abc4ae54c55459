import { tradeUnit } from './trade-units.js';

const named = (code: string): string => {
  const unit = tradeUnit(code);
  return unit.kind === 'unknown' ? code : unit.name;
};

/**
 * A unit of purchase as a supplier reads it: packages with what is in them.
 *
 * @example unitInWords({ unit: 'XIH', useUnit: 'LTR', unitsPerPurchase: '60' }) // => "plastic drum of 60 litre"
 * @example unitInWords({ unit: 'DZN', useUnit: 'C62', unitsPerPurchase: '12' }) // => "dozen"
 * @example unitInWords({ unit: 'XCT', useUnit: 'C62', unitsPerPurchase: '20' }) // => "carton of 20"
 */
export function unitInWords({
  unit,
  useUnit,
  unitsPerPurchase,
}: {
  readonly unit: string;
  readonly useUnit: string;
  readonly unitsPerPurchase: string;
}): string {
  if (tradeUnit(unit).kind !== 'package') return named(unit);
  const used = tradeUnit(useUnit);
  return `${named(unit)} of ${unitsPerPurchase}${used.kind === 'count' && used.pieces === 1 ? '' : ` ${named(useUnit)}`}`;
}
