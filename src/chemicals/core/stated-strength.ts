import { chemicalClass } from '../../shared/incompatibility.js';
import { densityKgL, type TabulatedChemical } from './makeup/density.js';
import { availableChlorineGL, gramsPerLitre, STRENGTH_BASES, type StrengthBasis } from './strength-units.js';

/** What a label can go by: g/L of the active substance, per cent by weight, and of hypochlorite the ways of stating chlorine. */
export const LABEL_BASES = ['g/L', 'wt %', ...STRENGTH_BASES] as const;
export type LabelBasis = (typeof LABEL_BASES)[number];

export interface StatedStrength {
  readonly value: number;
  readonly basis: LabelBasis;
  readonly densityKgL: number | null;
}

export type ReadStrength =
  | { readonly kind: 'strength'; readonly strengthGL: number }
  | { readonly kind: 'fault'; readonly field: 'basis' | 'densityKgL'; readonly message: string };

const NEEDS_DENSITY: readonly LabelBasis[] = ['wt %', 'wt % Cl2', 'wt % NaOCl'];

/**
 * Strength in g/L of the active substance from what stands on a label; of hypochlorite as available chlorine. Per cent by weight needs the density; caustic and citric acid
 * have theirs from a table where none is stated. Per cent of hypochlorite without a basis is refused: one "12.5 %" can mean 119 to 150 g/L.
 *
 * Source: as `availableChlorineGL`, `gramsPerLitre` and `densityKgL`.
 *
 * @example statedStrengthGL('sodium hypochlorite', { value: 12.5, basis: 'trade %', densityKgL: null }) // => {"kind": "strength", "strengthGL": 125}
 * @example statedStrengthGL('sodium hypochlorite', { value: 12.5, basis: 'wt %', densityKgL: 1.2 }).field // => "basis"
 */
export function statedStrengthGL(chemical: string, { value, basis, densityKgL: stated }: StatedStrength): ReadStrength {
  const isHypochlorite = chemicalClass(chemical) === 'hypochlorite';
  const isOfChlorine = (STRENGTH_BASES as readonly string[]).includes(basis);
  if (isHypochlorite && basis === 'wt %') return fault('basis', 'wt % of hypochlorite is not enough: say whether of Cl2 or of NaOCl, or take trade %');
  if (!isHypochlorite && isOfChlorine) return fault('basis', `${basis} is for hypochlorite: of ${chemical} take g/L or wt %`);
  const density = stated ?? tabulated(chemical, value);
  if (NEEDS_DENSITY.includes(basis) && density === null) return fault('densityKgL', `is needed for ${basis}: it stands on the delivery note, in kg/L`);
  if (isOfChlorine) return { kind: 'strength', strengthGL: availableChlorineGL(value, basis as StrengthBasis, density ?? 1) };
  return { kind: 'strength', strengthGL: basis === 'g/L' ? value : gramsPerLitre(value, density ?? 1) };
}

function fault(field: 'basis' | 'densityKgL', message: string): ReadStrength {
  return { kind: 'fault', field, message };
}

function tabulated(chemical: string, weightPercent: number): number | null {
  const known: TabulatedChemical | null = chemicalClass(chemical) === 'caustic' ? 'sodium hydroxide' : /citric/i.test(chemical) ? 'citric acid' : null;
  return known === null ? null : densityKgL(known, weightPercent);
}
