import type { JobKind } from '../../../shared/work.js';
import { type Indicator, ratioOf } from './indicator.js';

/** Finished work of one kind. */
export interface WorkDone {
  readonly kind: JobKind;
  readonly jobs: number;
  readonly hours: number;
}

const PREVENTIVE: ReadonlySet<JobKind> = new Set(['service']);

/**
 * Share of preventive work, by hours and by jobs. Preventive is what rules and outlooks asked for; breakdowns, requests and follow-ups are not.
 *
 * Source: the complement of the corrective maintenance ratio CMT / (CMT + PMT) of ISO 22400-2 (from memory); preventive as in EN 13306.
 *
 * @example preventiveShares([{ kind: 'service', jobs: 3, hours: 6 }, { kind: 'breakdown', jobs: 1, hours: 2 }])[0].value // => 75
 */
export function preventiveShares(done: readonly WorkDone[]): [Indicator, Indicator] {
  const total = (of: 'hours' | 'jobs', kinds: (kind: JobKind) => boolean) => done.reduce((sum, work) => sum + (kinds(work.kind) ? work[of] : 0), 0);
  const share = (of: 'hours' | 'jobs', code: string, name: string, unit: string): Indicator =>
    ratioOf(
      {
        code,
        name,
        unit: '%',
        formula: `100 × preventive ${of} / all ${of}`,
        meaning:
          'How much of the work was done before something failed. Work that rules or outlooks asked for is preventive; breakdowns, requests and follow-ups are not.',
        source: 'EN 13306 for preventive; ISO 22400-2 in its meaning',
        numerator: { value: total(of, (kind) => PREVENTIVE.has(kind)), unit, meaning: `${of} of finished preventive work` },
        denominator: { value: total(of, () => true), unit, meaning: `${of} of all finished work` },
      },
      of === 'hours' ? 'No hours of work were reported in this time.' : 'No job was finished in this time.',
      { scale: 100 },
    );
  return [
    share('hours', 'preventive-hours', 'Share of preventive work, by hours', 'h'),
    share('jobs', 'preventive-jobs', 'Share of preventive work, by jobs', '1'),
  ];
}
