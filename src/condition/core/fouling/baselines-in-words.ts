import { dayInWords } from '../../../shared/day.js';
import { figure } from '../../../shared/figure.js';
import type { Baselines } from '../baseline.js';

const NAMES = [
  ['commissioning', 'when new'],
  ['lastCip', 'after the last recovery clean'],
  ['lastCeb', 'after the last chemical clean of either kind'],
] as const;

/**
 * The three permeabilities that a membrane is compared with, in a sentence: each with its day, and whether it is assumed; `null` where none is known.
 *
 * @example baselinesInWords({ commissioning: { kind: 'too-little-data', have: 0, need: 7 }, lastCip: { kind: 'baseline', permeabilityLmhBar: 240, referenceC: 20, from: 'last CIP', assumed: false, day: '2026-01-05' }, lastCeb: { kind: 'too-little-data', have: 0, need: 7 } }) // => "Compared with: not known when new, 240 L/m2 h bar after the last recovery clean (5 Jan 2026), not known after the last chemical clean of either kind."
 */
export function baselinesInWords(baselines: Baselines): string | null {
  const said = NAMES.map(([key, name]) => {
    const baseline = baselines[key];
    if (baseline.kind !== 'baseline') return `not known ${name}`;
    return `${figure(baseline.permeabilityLmhBar)} L/m2 h bar ${name} (${baseline.assumed ? 'assumed, ' : ''}${dayInWords(baseline.day, '')})`;
  });
  return NAMES.every(([key]) => baselines[key].kind !== 'baseline') ? null : `Compared with: ${said.join(', ')}.`;
}
