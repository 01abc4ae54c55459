/** A function and its gradient, which it writes into `gradient`. */
export type Sloped = (at: Float64Array, gradient: Float64Array) => number;

/**
 * The place where a smooth function is least, from a start near it, by the method of Broyden, Fletcher, Goldfarb and Shanno with halving steps. Ends when the
 * function no longer falls by a billionth of itself, or after `most` steps.
 *
 * Source: Nocedal and Wright, Numerical Optimization, algorithm 6.1, from memory.
 */
export function minimise(f: Sloped, start: Float64Array, most = 200): Float64Array {
  const n = start.length;
  let at = Float64Array.from(start);
  let gradient = new Float64Array(n);
  let value = f(at, gradient);
  const inverse = Array.from({ length: n }, (_, i) => Float64Array.from({ length: n }, (_, j) => (i === j ? 1 / (1 + Math.abs(value)) : 0)));
  for (let round = 0; round < most; round++) {
    const direction = Float64Array.from(inverse, (row) => -dot(row, gradient));
    const slope = dot(direction, gradient);
    if (!(slope < 0)) break;
    let step = 1;
    let next = at;
    let nextGradient = gradient;
    let nextValue = value;
    for (; step > 1e-10; step /= 2) {
      next = at.map((x, i) => x + step * (direction[i] as number));
      nextGradient = new Float64Array(n);
      nextValue = f(next, nextGradient);
      if (nextValue <= value + 1e-4 * step * slope) break;
    }
    if (!(nextValue < value)) break;
    const moved = next.map((x, i) => x - (at[i] as number));
    const turned = nextGradient.map((x, i) => x - (gradient[i] as number));
    const fall = value - nextValue;
    [at, gradient, value] = [next, nextGradient, nextValue];
    if (fall <= 1e-9 * Math.abs(value)) break;
    update(inverse, moved, turned);
  }
  return at;
}

function update(inverse: readonly Float64Array[], moved: Float64Array, turned: Float64Array): void {
  const curve = dot(moved, turned);
  if (!(curve > 1e-12)) return;
  const pull = Float64Array.from(inverse, (row) => dot(row, turned));
  const scale = (1 + dot(pull, turned) / curve) / curve;
  for (const [i, row] of inverse.entries()) {
    for (let j = 0; j < row.length; j++) {
      row[j] =
        (row[j] as number) +
        scale * (moved[i] as number) * (moved[j] as number) -
        ((pull[i] as number) * (moved[j] as number) + (moved[i] as number) * (pull[j] as number)) / curve;
    }
  }
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += (a[i] as number) * (b[i] as number);
  return sum;
}
