import type { Severity } from '../../../shared/work.js';

/**
 * What the readings say of one thing that can be wrong. `shown`: a breakdown is to be made, once, until the same sign is `over`. Of what the readings do not tell
 * there is no sign at all: silence is neither a fault nor its end.
 */
export type Sign =
  | {
      readonly kind: 'shown';
      /** The same words each time, by which the breakdown is found again */
      readonly sign: string;
      readonly severity: Severity;
      readonly title: string;
      /** What is seen, why it matters, what to do first */
      readonly request: string;
      readonly noticedAt: Date;
      readonly downFrom: Date | null;
    }
  | { readonly kind: 'over'; readonly sign: string; readonly since: Date };
