/** How demand comes: steady or seldom, in even or uneven sizes. */
export type DemandClass = 'smooth' | 'intermittent' | 'erratic' | 'lumpy' | 'hardly any';

const FEWEST_DEMANDS = 3;

/**
 * Class of a series by the mean interval between demands (the first counted from the start) and the squared coefficient of variation of the sizes (divisor n):
 * below 1.32 and 0.49 smooth. With fewer than three demands none can be told.
 *
 * Source: Syntetos, Boylan and Croston, Journal of the Operational Research Society 56 (2005), cut-offs from memory.
 *
 * @example demandClassOf([1, 1, 1, 1]) // => "smooth"
 * @example demandClassOf([0, 0, 1, 0, 0, 9, 0, 0, 1]) // => "lumpy"
 * @example demandClassOf([0, 0, 1]) // => "hardly any"
 */
export function demandClassOf(series: ArrayLike<number>): DemandClass {
  let [count, sum, squares, last] = [0, 0, 0, 0];
  for (let t = 0; t < series.length; t++) {
    const y = series[t] ?? 0;
    if (y <= 0) continue;
    count += 1;
    sum += y;
    squares += y * y;
    last = t + 1;
  }
  if (count < FEWEST_DEMANDS) return 'hardly any';
  const uneven = (squares / count - (sum / count) ** 2) / (sum / count) ** 2 >= 0.49;
  return last / count < 1.32 ? (uneven ? 'erratic' : 'smooth') : uneven ? 'lumpy' : 'intermittent';
}
