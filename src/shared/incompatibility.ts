/** What a chemical is, as far as it decides what it must not meet. */
export type ChemicalClass = 'hypochlorite' | 'acid' | 'acidic salt' | 'ammonia' | 'peroxide' | 'reducing agent' | 'caustic' | 'unknown';

/** Two classes that must not share a tank, a bund, a hose, a van bay or a step without a rinse between, and what happens if they do. */
export interface Incompatibility {
  readonly classes: readonly [ChemicalClass, ChemicalClass];
  readonly happens: string;
}

/**
 * What must not meet. A chemical that is not known is treated as an acid where hypochlorite is concerned.
 *
 * Source: Chlorine Institute, sodium hypochlorite incompatibility chart, for hypochlorite; acid with caustic, acid with bisulfite and peroxide with reducing agents: common practice.
 */
export const INCOMPATIBILITIES: readonly Incompatibility[] = [
  { classes: ['hypochlorite', 'acid'], happens: 'chlorine gas, possibly violent' },
  { classes: ['hypochlorite', 'acidic salt'], happens: 'chlorine gas, possibly violent' },
  { classes: ['hypochlorite', 'ammonia'], happens: 'noxious and explosive gases' },
  { classes: ['hypochlorite', 'peroxide'], happens: 'oxygen that can burst closed vessels' },
  { classes: ['hypochlorite', 'reducing agent'], happens: 'heat and splashing' },
  { classes: ['hypochlorite', 'unknown'], happens: 'perhaps chlorine gas: what is not known is treated as an acid' },
  { classes: ['acid', 'caustic'], happens: 'violent heat and splashing' },
  { classes: ['acid', 'reducing agent'], happens: 'sulphur dioxide gas' },
  { classes: ['peroxide', 'reducing agent'], happens: 'violent heat' },
];

/** Names and formulas by class, most particular first: ammonium salts are not the acid in their name. */
const NAMES: readonly (readonly [ChemicalClass, RegExp])[] = [
  ['hypochlorite', /hypochlor|\bnaocl\b|\bnaclo\b|\bca\(?ocl\)?2\b|bleach|chlorine solution/i],
  ['reducing agent', /bisul(f|ph)ite|metabisul(f|ph)ite|thiosul(f|ph)ate|\bsul(f|ph)ite|\bnahso3\b|\bna2s2o5\b|\bna2s2o3\b|ascorb/i],
  ['ammonia', /ammoni|\bnh3\b|\bnh4/i],
  ['acidic salt', /ferric|ferrous|alumin|\balum\b|\bpac\b|\bfecl3\b|\bfecl2\b|iron (chloride|sul(f|ph)ate)/i],
  ['peroxide', /perox|\bh2o2\b|peracetic/i],
  ['caustic', /caustic|hydroxide|\bnaoh\b|\bkoh\b|\blye\b|\balkali/i],
  ['acid', /acid|citric|muriatic|\bhcl\b|\bh2so4\b|\bh3po4\b|\bhno3\b|vinegar/i],
];

/**
 * The class of a chemical from its name or formula; `unknown` where none fits.
 *
 * @example chemicalClass('Citric acid 50 %') // => "acid"
 */
export function chemicalClass(name: string): ChemicalClass {
  return NAMES.find(([, names]) => names.test(name))?.[0] ?? 'unknown';
}

/**
 * Whether two chemicals must not meet, and why. The order does not matter; `null` where no rule speaks against it, which is no promise that they may.
 *
 * @example mustNotMeet('NaOCl 12.5 %', 'citric acid').happens // => "chlorine gas, possibly violent"
 * @example mustNotMeet('NaOCl', 'NaOH') // => null
 */
export function mustNotMeet(one: string, other: string): Incompatibility | null {
  const pair = [chemicalClass(one), chemicalClass(other)];
  return INCOMPATIBILITIES.find(({ classes: [a, b] }) => (pair[0] === a && pair[1] === b) || (pair[0] === b && pair[1] === a)) ?? null;
}
