import type { Sign } from './sign.js';

/** The latest integrity test that counts. */
export interface CountedTest {
  readonly at: Date;
  readonly outcome: 'passed' | 'failed';
  readonly reasons: readonly string[];
}

/**
 * The last integrity test that counts has failed: particles, and what they carry, may pass. Over once a later one passes. `null` where there is no test that counts.
 *
 * Source: what to do first by common practice; the permit and the local regulator decide.
 *
 * @example integritySign({ at: new Date('2025-11-03T08:00:00Z'), outcome: 'passed', reasons: [] }).kind // => "over"
 */
export function integritySign(last: CountedTest | null): Sign | null {
  if (last === null) return null;
  const sign = 'integrity test failed';
  if (last.outcome === 'passed') return { kind: 'over', sign, since: last.at };
  const why = last.reasons.length === 0 ? '' : ` ${last.reasons.join('. ')}.`;
  return {
    kind: 'shown',
    sign,
    severity: 'danger',
    title: 'Integrity test failed',
    request: `The integrity test of ${last.at.toISOString().slice(0, 10)} failed.${why} Keep the water of this skid from supply until a test passes or the local regulator agrees.`,
    noticedAt: last.at,
    downFrom: null,
  };
}
