/** The hazards of a substance within a range of concentration, per cent by mass. */
export interface HazardBand {
  readonly fromPercent: number;
  /** Itself not within; null: up to the pure substance */
  readonly belowPercent: number | null;
  /** Null: no dangerous good */
  readonly unNumber: string | null;
  readonly packingGroup: string | null;
  readonly signalWord: '' | 'Danger' | 'Warning';
  readonly statements: readonly string[];
}

const END = 100;

/**
 * What two ranges of a substance share, as a sentence; null where they lie one after the other.
 *
 * @example bandProblem([{ fromPercent: 0, belowPercent: 10 }, { fromPercent: 5, belowPercent: null }]) // => "the ranges from 0 % and from 5 % overlap: end the first at 5 %"
 */
export function bandProblem(bands: readonly Pick<HazardBand, 'fromPercent' | 'belowPercent'>[]): string | null {
  const inOrder = [...bands].sort((a, b) => a.fromPercent - b.fromPercent);
  for (const [at, band] of inOrder.entries()) {
    const end = band.belowPercent ?? END + 1;
    if (end <= band.fromPercent) return `the range from ${band.fromPercent} % ends before it begins`;
    const next = inOrder[at + 1];
    if (next !== undefined && next.fromPercent < end) {
      return `the ranges from ${band.fromPercent} % and from ${next.fromPercent} % overlap: end the first at ${next.fromPercent} %`;
    }
  }
  return null;
}

/**
 * The hazards at a concentration; null where no range holds it, which is no word that there are none.
 *
 * @example hazardsAt([{ fromPercent: 5, belowPercent: null, statements: ['H314'] }], 20).statements // => ["H314"]
 * @example hazardsAt([{ fromPercent: 5, belowPercent: null, statements: ['H314'] }], 4) // => null
 */
export function hazardsAt<Band extends Pick<HazardBand, 'fromPercent' | 'belowPercent'>>(bands: readonly Band[], percent: number): Band | null {
  return bands.find(({ fromPercent, belowPercent }) => percent >= fromPercent && (belowPercent === null || percent < belowPercent)) ?? null;
}
