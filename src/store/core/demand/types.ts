/**
 * Probabilities of needing 0, 1, 2, ... pieces. They sum to 1; what lies beyond the last entry is counted in it. Pieces are whole: an item that is used by the
 * litre is counted in the smallest amount that is issued.
 */
export type Pmf = Float64Array;

/** Need that no plan and no outlook told of, per month, oldest first, the running month left out. What jobs with a due, a plan or an outlook took is not in it. */
export type MonthlyUse = readonly number[] | Float64Array;
