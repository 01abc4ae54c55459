/** What a code of a unit of trade stands for. Package codes of Recommendation 21 carry an X before them where a unit is meant. */
export type TradeUnit =
  | { readonly kind: 'measure'; readonly name: string; readonly measure: Measure; readonly ucum: string; readonly factor: number }
  | { readonly kind: 'count'; readonly name: string; readonly pieces: number | null }
  | { readonly kind: 'package'; readonly name: string };

export type Measure = 'volume' | 'mass' | 'length' | 'area';

const measure = (name: string, of: Measure, ucum: string, factor: number): TradeUnit => ({ kind: 'measure', name, measure: of, ucum, factor });
const count = (name: string, pieces: number | null): TradeUnit => ({ kind: 'count', name, pieces });
const packed = (name: string): TradeUnit => ({ kind: 'package', name });

/**
 * Units in which items are bought and used. Measures in litres, kilograms, metres and square metres.
 *
 * Source: UN/CEFACT Recommendation 20 (revision 17, 2021) and Recommendation 21, codes and factors; UCUM codes from memory.
 */
const TRADE_UNITS: ReadonlyMap<string, TradeUnit> = new Map([
  ['LTR', measure('litre', 'volume', 'L', 1)],
  ['DMQ', measure('cubic decimetre', 'volume', 'dm3', 1)],
  ['MLT', measure('millilitre', 'volume', 'mL', 0.001)],
  ['MTQ', measure('cubic metre', 'volume', 'm3', 1000)],
  ['K6', measure('kilolitre', 'volume', 'kL', 1000)],
  ['GLL', measure('US gallon', 'volume', '[gal_us]', 3.785412)],
  ['GLI', measure('UK gallon', 'volume', '[gal_br]', 4.546092)],
  ['KGM', measure('kilogram', 'mass', 'kg', 1)],
  ['GRM', measure('gram', 'mass', 'g', 0.001)],
  ['MGM', measure('milligram', 'mass', 'mg', 0.000001)],
  ['TNE', measure('tonne', 'mass', 't', 1000)],
  ['LBR', measure('pound', 'mass', '[lb_av]', 0.45359237)],
  ['MTR', measure('metre', 'length', 'm', 1)],
  ['CMT', measure('centimetre', 'length', 'cm', 0.01)],
  ['MMT', measure('millimetre', 'length', 'mm', 0.001)],
  ['FOT', measure('foot', 'length', '[ft_i]', 0.3048)],
  ['MTK', measure('square metre', 'area', 'm2', 1)],
  ['C62', count('one', 1)],
  ['H87', count('piece', 1)],
  ['EA', count('each', 1)],
  ['PR', count('pair', 2)],
  ['DZN', count('dozen', 12)],
  ['SET', count('set', null)],
  ['NMP', count('pack', null)],
  ['XIH', packed('plastic drum')],
  ['X1A', packed('steel drum')],
  ['XDR', packed('drum')],
  ['X3H', packed('plastic jerrican')],
  ['XJC', packed('rectangular jerrican')],
  ['XJY', packed('cylindrical jerrican')],
  ['XWA', packed('intermediate bulk container')],
  ['XAA', packed('intermediate bulk container of rigid plastic')],
  ['XZK', packed('freestanding intermediate bulk container of rigid plastic')],
  ['X5M', packed('paper bag')],
  ['XBG', packed('bag')],
  ['XSA', packed('sack')],
  ['XBJ', packed('bucket')],
  ['XCA', packed('can')],
  ['XBX', packed('box')],
  ['XCT', packed('carton')],
  ['XPK', packed('package')],
  ['XPX', packed('pallet')],
  ['XRO', packed('roll')],
  ['XTU', packed('tube')],
  ['XKI', packed('kit')],
]);

export const TRADE_UNIT_CODES: readonly string[] = [...TRADE_UNITS.keys()];

/** Codes that are taken for something else: what people mean by them. */
const MISTAKEN: ReadonlyMap<string, string> = new Map([
  ['GL', 'is gram per litre; a US gallon is GLL, a UK gallon GLI'],
  ['KL', 'is kilogram per metre; a kilolitre is K6, a cubic metre MTQ'],
  ['PK', 'was deleted from Recommendation 20: a package is XPK'],
  ['DR', 'was deleted from Recommendation 20: a drum is XDR, of plastic XIH, of steel X1A'],
  ['BX', 'was deleted from Recommendation 20: a box is XBX'],
  ['CT', 'was deleted from Recommendation 20: a carton is XCT'],
  ['CS', 'was deleted from Recommendation 20: a box is XBX, a carton XCT'],
  ['RO', 'was deleted from Recommendation 20: a roll is XRO'],
  ['JR', 'was deleted from Recommendation 20: a can is XCA, a bucket XBJ'],
]);

/**
 * What a code stands for; `unknown` with the reason where it is none that items are traded in.
 *
 * @example tradeUnit('GL').why // => "is gram per litre; a US gallon is GLL, a UK gallon GLI"
 * @example tradeUnit('XIH').name // => "plastic drum"
 */
export function tradeUnit(code: string): TradeUnit | { readonly kind: 'unknown'; readonly why: string } {
  const known = TRADE_UNITS.get(code);
  if (known !== undefined) return known;
  const withX = TRADE_UNITS.has(`X${code}`) ? `is a package: as a unit it is X${code}` : 'is no unit that items are bought or used in';
  return { kind: 'unknown', why: MISTAKEN.get(code) ?? withX };
}
