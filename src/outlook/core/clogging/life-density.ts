import type { LifePrior } from './life-prior.js';

/**
 * Logarithm of the density of ln(life), up to a constant: Student's t about the centre.
 *
 * @example lnDensity({ lnCentre: 2, lnScale: 0.5, freedom: 3 }, 2.5) // => -0.5753641
 */
export function lnDensity({ lnCentre, lnScale, freedom }: LifePrior, lnLife: number): number {
  const r = (lnLife - lnCentre) / lnScale;
  return (-(freedom + 1) / 2) * Math.log1p(r ** 2 / freedom);
}
