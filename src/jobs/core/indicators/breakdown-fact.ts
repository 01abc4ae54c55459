import type { Severity } from '../../../shared/work.js';
import type { Span } from './spans.js';

/** A breakdown as far as indicators ask for it. */
export interface BreakdownFact {
  readonly skidId: string;
  readonly severity: Severity;
  readonly noticedAt: Date;
  readonly downFrom: Date | null;
  readonly restoredAt: Date | null;
  readonly repairMinutes: number | null;
  /** Its job is finished or dropped */
  readonly ended: boolean;
  /** Made because a tank ran low: a supply that is late, and no failure of the skid */
  readonly ofTank: boolean;
}

export const COUNTED = ['stops', 'all'] as const;
/** `stops`: the skid gave no water. `all`: every breakdown, also those that cost some of the water or none. */
export type Counted = (typeof COUNTED)[number];

export const COUNTED_IN_WORDS: Record<Counted, string> = {
  stops: 'breakdowns in which the skid gave no water',
  all: 'all breakdowns, also those that cost little or no water',
};

/**
 * Whether a breakdown is a failure for the chosen count. A tank that ran low is none in either.
 *
 * Source: failure as the loss of the ability to do what is required (EN 13306); partial loss is counted only on request, since the mean depends on it.
 */
export function isFailure({ severity, downFrom, ofTank }: BreakdownFact, counted: Counted): boolean {
  return !ofTank && (counted === 'all' || downFrom !== null || severity === 'no water');
}

/** The moment that a failure counts at: when it stopped, or else when it was noticed. */
export const failedAt = ({ downFrom, noticedAt }: BreakdownFact): Date => downFrom ?? noticedAt;

/** The time that the skid was down; up to `now` while nobody has ended it. `null`: not known. */
export function downSpan({ downFrom, restoredAt, ended }: BreakdownFact, now: Date): Span | null {
  if (downFrom === null) return null;
  if (restoredAt !== null) return { from: downFrom, to: restoredAt };
  return ended ? null : { from: downFrom, to: now };
}
