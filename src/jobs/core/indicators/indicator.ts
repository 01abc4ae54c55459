/** One part of an indicator: a sum with its unit, and what was summed. */
export interface Quantity {
  readonly value: number;
  readonly unit: string;
  readonly meaning: string;
}

/** A figure of reliability or of work that shows what it was made of. */
export interface Indicator {
  readonly code: string;
  readonly name: string;
  readonly value: number | null;
  readonly unit: string;
  readonly numerator: Quantity;
  readonly denominator: Quantity;
  readonly formula: string;
  /** What it says, and what is counted in it */
  readonly meaning: string;
  /** Whose terms these are */
  readonly source: string;
  /** With 90 % confidence the true value lies above */
  readonly lowerLimit: number | null;
  /** What the figure leaves out */
  readonly remarks: readonly string[];
  /** Why there is no value, or why little can be made of it */
  readonly tooLittle: string | null;
}

type Words = Pick<Indicator, 'code' | 'name' | 'unit' | 'formula' | 'meaning' | 'source' | 'numerator' | 'denominator'>;

/**
 * Numerator over denominator, times `scale` where the unit asks for it (100 for per cent). Without a denominator there is no value, and the sentence says why.
 *
 * Source: that both parts stand beside each figure is asked for by the critics of EN 15341:2019, whose factors are vague.
 */
export function ratioOf(words: Words, nothing: string, more: { readonly scale?: number; readonly remarks?: readonly string[] } = {}): Indicator {
  const { numerator, denominator } = words;
  const value = denominator.value > 0 ? (numerator.value / denominator.value) * (more.scale ?? 1) : null;
  return { ...words, value, lowerLimit: null, remarks: more.remarks ?? [], tooLittle: value === null ? nothing : null };
}
