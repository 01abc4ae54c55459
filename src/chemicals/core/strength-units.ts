/** g of NaOCl that hold as much chlorine as one g of Cl2: 74.442 / 70.906 g/mol. */
const NAOCL_PER_CL2 = 74.442 / 70.906;

/** What a label can mean by the strength of hypochlorite. `wt %` needs the density. */
export const STRENGTH_BASES = ['g/L Cl2', 'trade %', 'wt % Cl2', 'wt % NaOCl', '% w/v NaOCl'] as const;
export type StrengthBasis = (typeof STRENGTH_BASES)[number];

/** g/L as Cl2 in one unit of each basis, for a density in kg/L. */
const GRAMS_IN: Readonly<Record<StrengthBasis, (densityKgL: number) => number>> = {
  'g/L Cl2': () => 1,
  'trade %': () => 10,
  'wt % Cl2': (density) => 10 * density,
  'wt % NaOCl': (density) => (10 * density) / NAOCL_PER_CL2,
  '% w/v NaOCl': () => 10 / NAOCL_PER_CL2,
};

/**
 * Strength of hypochlorite in g/L as available chlorine, from what stands on the label. One label of "12.5 %" can mean 119 to 150 g/L, so the basis is part
 * of the value.
 *
 * Trade % (w/v as Cl2) x 10; wt % Cl2 x 10 x density; wt % NaOCl x 10 x density / 1.05; % w/v NaOCl x 10 / 1.05.
 *
 * Source: definitions after White, Handbook of Chlorination (1972), as quoted on an industry page on hypochlorite strength.
 *
 * @example availableChlorineGL(12.5, 'trade %', 1.168) // => 125
 */
export function availableChlorineGL(value: number, basis: StrengthBasis, densityKgL: number): number {
  return value * GRAMS_IN[basis](densityKgL);
}

/**
 * The other way: g/L as available chlorine in the words of a label.
 *
 * @example strengthAs(125, 'trade %', 1.168) // => 12.5
 */
export function strengthAs(availableGL: number, basis: StrengthBasis, densityKgL: number): number {
  return availableGL / GRAMS_IN[basis](densityKgL);
}

/**
 * Strength in g/L of any product that is stated in per cent by weight.
 *
 * @example gramsPerLitre(50, 1.525) // => 762.5
 */
export function gramsPerLitre(weightPercent: number, densityKgL: number): number {
  return 10 * weightPercent * densityKgL;
}
