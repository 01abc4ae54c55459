import { batchLitres } from '../dose.js';
import { type LabelBasis, statedStrengthGL } from '../stated-strength.js';
import { type AcidOrCaustic, type ChlorineReagent, chlorineReagentKg, citricKg, neutraliserKg, pureKgToPh } from './neutralise.js';

export const BATCH_CHEMICALS = ['sodium hypochlorite', 'sodium hydroxide', 'hydrochloric acid', 'citric acid'] as const;
export type BatchChemical = (typeof BATCH_CHEMICALS)[number];

/** A cleaning solution to make up. The target goes by the chemical: chlorine in mg/L, a pH, or per cent by weight and volume. */
export interface BatchToMake {
  readonly chemical: BatchChemical;
  readonly volumeM3: number;
  readonly targetMgL: number | null;
  readonly targetPh: number | null;
  readonly targetPercent: number | null;
  /** Of the product; `null` for dry citric acid */
  readonly product: { readonly value: number; readonly basis: LabelBasis; readonly densityKgL: number | null } | null;
  /** What takes the chlorine away */
  readonly reagent: ChlorineReagent;
}

export interface Neutraliser {
  readonly name: string;
  /** Pure */
  readonly kg: number;
}

export type Batch =
  | {
      readonly kind: 'batch';
      /** Of the active substance, pure */
      readonly pureKg: number;
      /** `null` for a dry product */
      readonly productL: number | null;
      /** Of citric acid: the crystals with their water */
      readonly monohydrateKg: number | null;
      readonly productGL: number | null;
      readonly neutralise: readonly Neutraliser[];
      /** Real water is buffered and takes more */
      readonly isLowerBound: boolean;
    }
  | { readonly kind: 'fault'; readonly field: string; readonly message: string };

/**
 * What goes into the tank of a CEB or CIP, and what neutralises the spent solution: hypochlorite by chlorine, caustic and hydrochloric acid to a pH in pure water (a lower bound),
 * citric acid by weight. What neutralises is reckoned for all that went in: less is left after a clean, so add nine tenths, mix and measure.
 *
 * Source: as `batchLitres`, `pureKgToPh`, `citricKg`, `chlorineReagentKg` and `neutraliserKg`.
 *
 * @example makeBatch({ chemical: 'sodium hypochlorite', volumeM3: 1, targetMgL: 500, targetPh: null, targetPercent: null, product: { value: 12.5, basis: 'trade %', densityKgL: null }, reagent: 'sodium bisulfite' }).productL // => 4
 */
export function makeBatch(batch: BatchToMake): Batch {
  const { chemical, volumeM3, product } = batch;
  const strength = product === null ? null : statedStrengthGL(chemical, product);
  if (strength?.kind === 'fault') return { ...strength, field: strength.field === 'basis' ? 'productBasis' : strength.field };
  const productGL = strength?.strengthGL ?? null;
  if (productGL === null && chemical !== 'citric acid') return fault('productValue', `is needed: the strength of the ${chemical} that is poured`);
  const base = { kind: 'batch' as const, productGL, monohydrateKg: null, isLowerBound: false };
  if (chemical === 'sodium hypochlorite') {
    const { targetMgL, reagent } = batch;
    if (targetMgL === null) return fault('targetMgL', 'is needed: the chlorine that the clean asks for');
    const productL = batchLitres(targetMgL, volumeM3, productGL ?? 0);
    return { ...base, pureKg: (targetMgL * volumeM3) / 1000, productL, neutralise: [{ name: reagent, kg: chlorineReagentKg(reagent, targetMgL, volumeM3) }] };
  }
  if (chemical === 'citric acid') {
    if (batch.targetPercent === null) return fault('targetPercent', 'is needed: citric acid is made up by weight');
    const { anhydrousKg, monohydrateKg } = citricKg(batch.targetPercent, volumeM3);
    return { ...base, pureKg: anhydrousKg, productL: litresOf(anhydrousKg, productGL), monohydrateKg, neutralise: neutralisers(chemical, anhydrousKg) };
  }
  if (batch.targetPh === null) return fault('targetPh', 'is needed: the pH that the clean asks for');
  const pureKg = pureKgToPh(chemical, batch.targetPh, volumeM3);
  if (pureKg === null) return fault('targetPh', `pH ${batch.targetPh} is on the other side of neutral from ${chemical}`);
  return { ...base, pureKg, productL: litresOf(pureKg, productGL), neutralise: neutralisers(chemical, pureKg), isLowerBound: true };
}

function neutralisers(spent: AcidOrCaustic, kg: number): Neutraliser[] {
  const by: readonly AcidOrCaustic[] = spent === 'sodium hydroxide' ? ['citric acid', 'hydrochloric acid'] : ['sodium hydroxide'];
  return by.map((name) => ({ name, kg: neutraliserKg(spent, kg, name) }));
}

function litresOf(pureKg: number, productGL: number | null): number | null {
  return productGL === null || productGL <= 0 ? null : (pureKg * 1000) / productGL;
}

function fault(field: string, message: string): Batch {
  return { kind: 'fault', field, message };
}
