import { normalCdf } from '../../../../outlook/core/normal.js';
import { convolve } from '../pmf/convolve.js';
import { addPart } from '../pmf/poisson-binomial.js';
import type { FittedPart, OutlookRecord, Pmf } from '../types.js';
import { type Chances, changeChances } from './change-chances.js';
import { inverseNormal } from './inverse-normal.js';

/** Five points and weights of a standard normal value (Gauss and Hermite). */
const POINTS = [-2.85697001387281, -1.35562617997427, 0, 1.35562617997427, 2.85697001387281];
const WEIGHTS = [0.0112574113277207, 0.222075922005613, 0.533333333333333, 0.222075922005613, 0.0112574113277207];

interface Judged extends Chances {
  readonly quantity: number;
  readonly z: number;
}

/**
 * Need of fitted parts within so many days. What comes over all waters at once, and over one water, is shared by its parts (a storm takes all pre-filters in the
 * same week); given both, parts are changed or not independently:
 *   p = Phi((z - sqrt(other) z0 - sqrt(same - other) zw) / sqrt(1 - same)),   z = Phi^-1(probability by the outlook),
 * and the need is the mean over z0 of the sum over waters of the mean over zw of a Poisson-binomial distribution.
 */
export function fittedNeed(parts: readonly FittedPart[], days: number, record: OutlookRecord): Pmf {
  if (parts.length === 0) return Float64Array.of(1);
  const waters = new Map<string, Judged[]>();
  for (const [at, part] of parts.entries()) {
    const chances = changeChances(part, days, record);
    if (chances.once < 1e-9) continue;
    const name = part.water === null ? `alone ${at}` : `water ${part.water}`;
    const judged = { ...chances, quantity: part.quantity, z: inverseNormal(chances.once) };
    waters.set(name, [...(waters.get(name) ?? []), judged]);
  }
  const { sameWater, otherWater } = record;
  const all = new Float64Array([...waters.values()].flat().reduce((sum, { quantity }) => sum + 2 * quantity, 1));
  for (const [at, z0] of POINTS.entries()) {
    let given: Pmf = Float64Array.of(1);
    for (const of of waters.values()) given = convolve(given, ofOneWater(of, Math.sqrt(otherWater) * z0, sameWater - otherWater, 1 - sameWater));
    for (let k = 0; k < given.length; k++) all[k] = (all[k] as number) + (WEIGHTS[at] as number) * (given[k] as number);
  }
  return all;
}

function ofOneWater(parts: readonly Judged[], common: number, ofWater: number, own: number): Pmf {
  const length = parts.reduce((sum, { quantity }) => sum + 2 * quantity, 1);
  const mix = new Float64Array(length);
  const given = new Float64Array(length);
  for (const [at, zw] of POINTS.entries()) {
    given.fill(0);
    given[0] = 1;
    let last = 0;
    for (const { z, once, twice, quantity } of parts) {
      const p = normalCdf((z - common - Math.sqrt(ofWater) * zw) / Math.sqrt(own));
      const second = p * (twice / once);
      last = addPart(given, last, quantity, p - second, second);
    }
    for (let k = 0; k <= last; k++) mix[k] = (mix[k] as number) + (WEIGHTS[at] as number) * (given[k] as number);
  }
  return mix;
}
