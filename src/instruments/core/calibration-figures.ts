import { extent, greatest } from 'd3-array';

/** One point at which an instrument was compared with a reference, all in one unit. */
export interface CalibrationPoint {
  readonly reference: number;
  readonly asFound: number;
  /** `null` where nothing was adjusted at this point */
  readonly asLeft: number | null;
}

export type ToleranceCheck = 'in tolerance' | 'out of tolerance';

/** What a comparison says of an instrument. Errors are reading less reference, in the unit of the points. */
export interface CalibrationFigures {
  /** The error that is largest in size, with its sign */
  readonly worstAsFound: number;
  /** Of the points that were read again after the adjustment; `null` where nothing was adjusted */
  readonly worstAsLeft: number | null;
  readonly asFound: ToleranceCheck;
  readonly asLeft: ToleranceCheck;
  /** Error at the lowest reference */
  readonly zeroError: number;
  /** Error at the highest reference less that at the lowest; `null` with a single reference */
  readonly spanError: number | null;
}

/** Differences of decimals such as 100.1 - 100 are off in the last digits: an error that is as large as the tolerance is within it. */
const ROUNDING = 1e-9;

/**
 * Errors of an instrument from a comparison with a reference at some points: the worst as found and as left, each against the tolerance, and how the error parts into zero
 * and span. An instrument that was not adjusted is left as it was found; one that was adjusted is judged by the points that were read again. `no-points` without any.
 *
 * Source: as-found and as-left records against one tolerance (common practice).
 *
 * @example calibrationFigures([{ reference: 0, asFound: 2, asLeft: 0 }, { reference: 400, asFound: 412, asLeft: 401 }], 4) // => { "kind": "figures", "worstAsFound": 12, "worstAsLeft": 1, "asFound": "out of tolerance", "asLeft": "in tolerance", "zeroError": 2, "spanError": 10 }
 */
export function calibrationFigures(
  points: readonly CalibrationPoint[],
  tolerance: number,
): ({ readonly kind: 'figures' } & CalibrationFigures) | { readonly kind: 'no-points' } {
  const worstAsFound = worst(points.map(({ reference, asFound }) => asFound - reference));
  if (worstAsFound === undefined) return { kind: 'no-points' };
  const again = points.flatMap(({ reference, asLeft }) => (asLeft === null ? [] : [asLeft - reference]));
  const worstAsLeft = worst(again) ?? null;
  const check = (error: number): ToleranceCheck => (Math.abs(error) <= tolerance + ROUNDING * Math.max(1, tolerance) ? 'in tolerance' : 'out of tolerance');
  const [low = 0, high = 0] = extent(points, ({ reference }) => reference);
  const errorAt = (at: number) => worst(points.flatMap(({ reference, asFound }) => (reference === at ? [asFound - reference] : []))) ?? 0;
  return {
    kind: 'figures',
    worstAsFound,
    worstAsLeft,
    asFound: check(worstAsFound),
    asLeft: check(worstAsLeft ?? worstAsFound),
    zeroError: errorAt(low),
    spanError: high > low ? errorAt(high) - errorAt(low) : null,
  };
}

const worst = (errors: readonly number[]): number | undefined => greatest(errors, (error) => Math.abs(error));
