/**
 * The indices of a series that a drawing of so many pixel columns needs, as runs of neighbours.
 *
 * Of each run of values, the first, smallest, largest and last of every column are kept, so that a spike of one value stays visible,
 * and nothing is drawn across a value that is missing, however many columns there are.
 * Behaviour at the edges: an empty window or a series without values gives no run; a value alone between two gaps is a run of one.
 *
 * @example thin([1, 2, null, 4], 0, 4, 10) // => [[0, 1], [3]]
 * @example thin([5, 1, 5, 9, 5, 5], 0, 6, 1) // => [[0, 1, 3, 5]]
 */
export function thin(values: ArrayLike<number | null>, from: number, to: number, columns: number): number[][] {
  const count = to - from;
  const runs: number[][] = [];
  let start = from;
  while (start < to) {
    if (values[start] == null) {
      start += 1;
      continue;
    }
    let end = start;
    while (end < to && values[end] != null) end += 1;
    runs.push(thinRun(values, start, end, (index) => Math.floor(((index - from) * columns) / count)));
    start = end;
  }
  return runs;
}

/** Indices of one run without gaps, which ends before `end`. */
function thinRun(values: ArrayLike<number | null>, start: number, end: number, columnOf: (index: number) => number): number[] {
  const kept: number[] = [];
  let first = start;
  while (first < end) {
    const column = columnOf(first);
    let [low, high, last] = [first, first, first];
    for (let index = first + 1; index < end && columnOf(index) === column; index++) {
      if (valueAt(values, index) < valueAt(values, low)) low = index;
      if (valueAt(values, index) > valueAt(values, high)) high = index;
      last = index;
    }
    kept.push(...new Set([first, Math.min(low, high), Math.max(low, high), last]));
    first = last + 1;
  }
  return kept;
}

const valueAt = (values: ArrayLike<number | null>, index: number) => values[index] ?? 0;
