import { betaBinomial } from '../pmf/beta-binomial.js';
import { negativeBinomial } from '../pmf/negative-binomial.js';
import { trimmed } from '../pmf/pmf.js';
import type { Pmf } from '../types.js';
import { type CatalogueConstants, excessOf } from './constants.js';
import type { ItemState } from './item-state.js';

/** Months of the catalogue that stand against an item's own in whether a month needs any. */
const MONTHS_OF_PRIOR = 4;

/**
 * Need of so many months by whether a month needs any and how many it then takes: the number of months is beta-binomial, the pieces beyond the first of each
 * negative binomial with mean e and variance e + c e^2. n such months add up to n pieces and a negative binomial again, with n e and n (e + c e^2). Parts of
 * months: between the whole months on both sides.
 *
 * Source: occurrence with priors in the manner of Bai and Chou, arXiv 2511.12749 (abstract); the sizes our own.
 */
export function hurdle(state: ItemState, months: number, { busy, excess, scatter }: CatalogueConstants): Pmf {
  const a = state.busy(6) + MONTHS_OF_PRIOR * busy;
  const b = state.weight(6) - state.busy(6) + MONTHS_OF_PRIOR * (1 - busy);
  const e = excessOf(state, excess);
  const [whole, part] = [Math.floor(months), months - Math.floor(months)];
  const fewer = betaBinomial(whole, a, b);
  const more = part > 1e-9 ? betaBinomial(whole + 1, a, b) : fewer;
  const parts = more.map((share, n) => ({ share: (1 - part) * (fewer[n] ?? 0) + part * share, n, beyond: negativeBinomial(n * e, n * (e + scatter * e * e)) }));
  const pmf = new Float64Array(Math.max(...parts.map(({ n, beyond }) => n + beyond.length)));
  for (const { share, n, beyond } of parts) {
    for (let k = 0; k < beyond.length; k++) pmf[n + k] = (pmf[n + k] as number) + share * (beyond[k] as number);
  }
  return trimmed(pmf);
}
