/** What is read from a membrane on one day: the clock is what has run through since the clean (m3/m2), or the days where that is not known. */
export interface LevelPoint {
  /** Whole days, counted from any day that is the same for all */
  readonly dayNo: number;
  readonly clock: number;
  /** Above nought: a permeability, a specific flux, a normalised pressure drop */
  readonly value: number;
}

/** A unit from one clean to the next; ascending in days. A clean begins another run. */
export interface LevelRun {
  readonly unit: string;
  readonly points: readonly LevelPoint[];
  /** How ln(value) moved per unit of clock in the unit's earlier runs; left out: not known */
  readonly usualDrift?: number;
}
