import type { MonthlyUse } from '../types.js';

/** Half-lives in months. Short memories with a heavy prior from the catalogue beat long memories: chosen by cross-validation. */
const HALF_LIVES = [3, 5, 6, 8, 12, 24, 30, 40] as const;
type HalfLife = (typeof HALF_LIVES)[number];

const STEPS = HALF_LIVES.map((halfLife) => 0.5 ** (1 / halfLife));
const PLACES = HALF_LIVES.length;

/**
 * What all methods need to know of one item's past: for each half-life the weighted sums of months, of months with need, of pieces and of squared pieces. The
 * last month weighs 1. Each month brings it forward in one step, so that every month of the past can be looked at as it was then.
 */
export class ItemState {
  months = 0;
  /** Months since the last one with need: 0 if that was the last month, all of them if there was none */
  idle = 0;
  private readonly sums = new Float64Array(4 * PLACES);

  add(pieces: number): void {
    this.months += 1;
    this.idle = pieces > 0 ? 0 : this.idle + 1;
    for (let i = 0; i < PLACES; i++) {
      const step = STEPS[i] as number;
      this.sums[i] = (this.sums[i] as number) * step + 1;
      this.sums[PLACES + i] = (this.sums[PLACES + i] as number) * step + (pieces > 0 ? 1 : 0);
      this.sums[2 * PLACES + i] = (this.sums[2 * PLACES + i] as number) * step + pieces;
      this.sums[3 * PLACES + i] = (this.sums[3 * PLACES + i] as number) * step + pieces * pieces;
    }
  }

  /** Weight of all months together. */
  weight(halfLife: HalfLife): number {
    return this.sums[HALF_LIVES.indexOf(halfLife)] as number;
  }
  /** Weight of the months with need. */
  busy(halfLife: HalfLife): number {
    return this.sums[PLACES + HALF_LIVES.indexOf(halfLife)] as number;
  }
  pieces(halfLife: HalfLife): number {
    return this.sums[2 * PLACES + HALF_LIVES.indexOf(halfLife)] as number;
  }
  squares(halfLife: HalfLife): number {
    return this.sums[3 * PLACES + HALF_LIVES.indexOf(halfLife)] as number;
  }

  /** Weighted sum of squared distances from the mean: sum w y^2 - (sum w y)^2 / sum w. */
  scatter(halfLife: HalfLife): number {
    const weight = this.weight(halfLife);
    return weight === 0 ? 0 : Math.max(0, this.squares(halfLife) - this.pieces(halfLife) ** 2 / weight);
  }

  copy(): ItemState {
    const copy = new ItemState();
    copy.months = this.months;
    copy.idle = this.idle;
    copy.sums.set(this.sums);
    return copy;
  }
}

/** The state after the last month, or after so many. */
export function stateOf(use: MonthlyUse, months = use.length): ItemState {
  const state = new ItemState();
  for (let t = 0; t < months; t++) state.add(use[t] ?? 0);
  return state;
}

/** The states as they were after `from` months and each month after it; none where the item is younger than that. */
export function statesFrom(use: MonthlyUse, from: number): ItemState[] {
  const state = stateOf(use, Math.min(from, use.length));
  if (use.length < from) return [];
  const states = [state.copy()];
  for (let t = from; t < use.length; t++) {
    state.add(use[t] ?? 0);
    states.push(state.copy());
  }
  return states;
}
