/** What takes chlorine away: g of reagent per g of Cl2. */
const PER_CHLORINE = {
  'sodium bisulfite': 1.61,
  'sodium metabisulfite': 1.47,
  'sodium sulfite': 1.96,
  'sodium thiosulfate': 1.9,
  'ascorbic acid': 2.5,
  'sodium ascorbate': 2.8,
} as const;
export type ChlorineReagent = keyof typeof PER_CHLORINE;
export const CHLORINE_REAGENTS = Object.keys(PER_CHLORINE) as readonly ChlorineReagent[];

const G_PER_MOL = { 'sodium hydroxide': 39.997, 'hydrochloric acid': 36.461, 'citric acid': 192.12 } as const;
/** Hydrogen or hydroxide ions that a molecule gives or takes on the way to neutral */
const IONS = { 'sodium hydroxide': 1, 'hydrochloric acid': 1, 'citric acid': 3 } as const;
export type AcidOrCaustic = keyof typeof G_PER_MOL;

/**
 * Reagent that takes away the chlorine of a spent cleaning solution, kg: g per g Cl2 x mg/L x m3 / 1000. Field values at pH 7: add in steps and test, since what is left of the
 * chlorine after a clean is less than what went in.
 *
 * Source: field guide Disinfection of Pipelines and Storage Facilities, table 7-2.
 *
 * @example chlorineReagentKg('sodium bisulfite', 500, 1) // => 0.805
 */
export function chlorineReagentKg(reagent: ChlorineReagent, chlorineMgL: number, volumeM3: number): number {
  return (PER_CHLORINE[reagent] * chlorineMgL * volumeM3) / 1000;
}

/**
 * Pure acid or caustic that brings pure water to a pH, kg: 10^-pH mol/L of hydrogen ions, or 10^(pH - 14) of hydroxide ions, x g/mol x m3. A lower bound: real water is
 * buffered, and takes more. `null` on the other side of neutral, and for citric acid, which is weak: it is made up by weight.
 *
 * Source: ion product of water, 1e-14 at 25 degC.
 *
 * @example pureKgToPh('sodium hydroxide', 12, 1) // => 0.39997
 * @example pureKgToPh('hydrochloric acid', 9, 1) // => null
 */
export function pureKgToPh(chemical: AcidOrCaustic, ph: number, volumeM3: number): number | null {
  const isCaustic = chemical === 'sodium hydroxide';
  if (chemical === 'citric acid' || (isCaustic ? ph < 7 : ph > 7)) return null;
  return 10 ** (isCaustic ? ph - 14 : -ph) * G_PER_MOL[chemical] * volumeM3;
}

/**
 * Pure acid that neutralises some pure caustic, or the other way, kg: equal ions. Citric acid counts all three of its hydrogen ions. Add nine tenths of it, mix, measure the
 * pH, and only then the rest.
 *
 * Source: stoichiometry.
 *
 * @example neutraliserKg('sodium hydroxide', 40, 'hydrochloric acid') // => 36.4637348
 */
export function neutraliserKg(spent: AcidOrCaustic, spentKg: number, by: AcidOrCaustic): number {
  return (spentKg / G_PER_MOL[spent]) * (IONS[spent] / IONS[by]) * G_PER_MOL[by];
}

/** Kilograms of citric acid monohydrate that hold a kilogram without water: 210.14 / 192.12 g/mol. */
const MONOHYDRATE = 210.14 / 192.12;

/**
 * Citric acid for a solution by weight and volume, kg: 10 x % x m3 of the acid without water, and as monohydrate.
 *
 * Source: molar masses.
 *
 * @example citricKg(2, 1).anhydrousKg // => 20
 */
export function citricKg(percent: number, volumeM3: number): { anhydrousKg: number; monohydrateKg: number } {
  const anhydrousKg = 10 * percent * volumeM3;
  return { anhydrousKg, monohydrateKg: anhydrousKg * MONOHYDRATE };
}

/**
 * Litres of a product that hold some pure substance, L: kg / (weight share x density). `null` for a product without strength.
 *
 * @example productLitres(0.4, 50, 1.525) // => 0.5245902
 */
export function productLitres(pureKg: number, weightPercent: number, densityOfProductKgL: number): number | null {
  const kgPerLitre = (weightPercent / 100) * densityOfProductKgL;
  return kgPerLitre > 0 ? pureKg / kgPerLitre : null;
}
