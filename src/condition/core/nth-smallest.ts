/**
 * The value with `nth` others before it in ascending order, the smallest being the 0th, among the first `count` of the values; they are partly ordered in place, so that all before the `nth` place
 * are no larger. `nth` must lie below `count`, and none may be NaN. Linear time on average, where a sort takes n log n.
 *
 * Source: C. A. R. Hoare, Algorithm 65: Find, Communications of the ACM 4 (1961), from memory.
 *
 * @example nthSmallest(new Float64Array([5, 1, 4, 2]), 4, 2) // => 4
 */
export function nthSmallest(values: Float64Array, count: number, nth: number): number {
  let [from, to] = [0, count - 1];
  while (from < to) {
    const pivot = at(values, (from + to) >> 1);
    let [up, down] = [from, to];
    while (up <= down) {
      while (at(values, up) < pivot) up += 1;
      while (at(values, down) > pivot) down -= 1;
      if (up > down) break;
      const swapped = at(values, up);
      values[up] = at(values, down);
      values[down] = swapped;
      up += 1;
      down -= 1;
    }
    if (nth <= down) to = down;
    else if (nth >= up) from = up;
    else break;
  }
  return at(values, nth);
}

const at = (values: Float64Array, place: number): number => values[place] ?? Number.NaN;
