/** How a value moved while a part wore: ascending clock (load since it was new), level = value / limit. */
export interface Course {
  readonly clock: readonly number[];
  readonly level: readonly number[];
}

/** A life that is over, or was cut off before its limit. */
export interface EarlierLife {
  /** Names the life among others; `condition` those that wore alike (the same position), `group` the same duty */
  readonly key: string;
  readonly condition: string;
  readonly group: string;
  /** Clock at the limit, or when it was cut off */
  readonly life: number;
  readonly ended: 'limit' | 'censored';
  /** Neighbours in order wore alike where feed or make drifts */
  readonly order: number;
  /** Logarithm of how strong the feed was, as far as the clock leaves it out; null: not known */
  readonly lnStrength: number | null;
  readonly course: Course;
}

/** Keeps logarithms finite near a clean filter, and stops the noise there from deciding. */
const LEVEL_OFFSET = 0.1;

const logLevel = (level: number): number => Math.log(Math.max(level, 0) + LEVEL_OFFSET);

/** The log level as a function of the clock that can be averaged over any window: straight between samples, flat outside. */
export interface Averaged {
  readonly from: number;
  mean(from: number, to: number): number;
}

/**
 * Prepares a course for averages over windows of its clock. Samples beyond `until` are not looked at.
 *
 * @example averaged({ clock: [0, 2], level: [0.9, 0.9] }).mean(0, 2) // => 0
 */
export function averaged({ clock, level }: Course, until = Number.POSITIVE_INFINITY): Averaged {
  const count = until === Number.POSITIVE_INFINITY ? clock.length : countUntil(clock, until);
  const value = new Float64Array(count);
  const area = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    value[i] = logLevel(level[i] as number);
    if (i > 0) area[i] = (area[i - 1] as number) + (((value[i] as number) + (value[i - 1] as number)) / 2) * ((clock[i] as number) - (clock[i - 1] as number));
  }
  const [first, last] = [clock[0] ?? 0, clock[count - 1] ?? 0];
  const areaTo = (at: number): number => {
    if (count === 0) return 0;
    if (at <= first) return (at - first) * (value[0] as number);
    if (at >= last) return (area[count - 1] as number) + (at - last) * (value[count - 1] as number);
    const next = countUntil(clock, at, count);
    const before = next - 1;
    const [t0, t1, v0, v1] = [clock[before] as number, clock[next] as number, value[before] as number, value[next] as number];
    const share = t1 > t0 ? (at - t0) / (t1 - t0) : 0;
    return (area[before] as number) + (at - t0) * (v0 + (share * (v1 - v0)) / 2);
  };
  return { from: first, mean: (from, to) => (to > from ? (areaTo(to) - areaTo(from)) / (to - from) : (areaTo(to + 1e-9) - areaTo(to)) / 1e-9) };
}

/** How many of the ascending values are at `until` or below. */
export function countUntil(values: readonly number[], until: number, to = values.length): number {
  let [low, high] = [0, to];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((values[middle] as number) <= until) low = middle + 1;
    else high = middle;
  }
  return low;
}
