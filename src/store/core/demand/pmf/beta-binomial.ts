/**
 * Number of months with demand among n, when the probability of a month is itself only known as a beta distribution with a and b:
 *   P(k) = C(n,k) B(k + a, n - k + b) / B(a, b).
 *
 * @example betaBinomial(2, 1, 1) // => [0.3333333, 0.3333333, 0.3333333]
 */
export function betaBinomial(n: number, a: number, b: number): number[] {
  const pmf = Array.from({ length: n + 1 }, () => 0);
  let share = 1;
  for (let i = 0; i < n; i++) share *= (b + i) / (a + b + i);
  pmf[0] = share;
  for (let k = 0; k < n; k++) {
    share *= ((n - k) / (k + 1)) * ((k + a) / (n - k - 1 + b));
    pmf[k + 1] = share;
  }
  return pmf;
}
