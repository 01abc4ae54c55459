import { nthSmallest } from './nth-smallest.js';

const FEW = 128;

/**
 * The values of one signal of one day. A long record has a dozen signals a day for hundreds of days: the store is emptied as its figure is taken, and the next day
 * fills it again. What is null or not a number is passed over.
 */
export class Gathered {
  private values = new Float64Array(FEW);
  private count = 0;

  add(value: number | null): void {
    if (value === null || Number.isNaN(value)) return;
    if (this.count === this.values.length) {
      const wider = new Float64Array(2 * this.count);
      wider.set(this.values);
      this.values = wider;
    }
    this.values[this.count] = value;
    this.count += 1;
  }

  /** Median, the mean of the two middle ones where their count is even; `null` where there is none. */
  takeMedian(): number | null {
    const { values, count } = this;
    this.count = 0;
    if (count === 0) return null;
    const half = count >> 1;
    const high = nthSmallest(values, count, half);
    if (count % 2 === 1) return high;
    let low = Number.NEGATIVE_INFINITY;
    for (let place = 0; place < half; place += 1) low = Math.max(low, values[place] ?? low);
    return (low + high) / 2;
  }

  /** Median, 10th and 90th percentile by linear interpolation between order statistics (type 7 of Hyndman and Fan); `null` where there is none. */
  takeSpread(): { readonly median: number; readonly low: number; readonly high: number; readonly n: number } | null {
    const { count } = this;
    const sorted = this.values.subarray(0, count).sort();
    this.count = 0;
    return count === 0 ? null : { median: quantile(sorted, 0.5), low: quantile(sorted, 0.1), high: quantile(sorted, 0.9), n: count };
  }
}

function quantile(sorted: Float64Array, p: number): number {
  const place = (sorted.length - 1) * p;
  const before = Math.floor(place);
  const low = sorted[before] ?? Number.NaN;
  return low + ((sorted[before + 1] ?? low) - low) * (place - before);
}
