import type { RecordOfSkid } from '../../outlook/core/skid/as-known-on.js';
import type { OutlookFacts } from '../../outlook/core/skid/known-of-skid.js';

/** A run of the membranes or of a cartridge set, and when its limit is truly met: as soon as the load that was drawn for it is spent. */
export interface TrueRun {
  /** `membranes`, or the cartridge housing */
  readonly subject: string;
  readonly life: string;
  readonly fromMs: number;
  readonly renewedMs: number | null;
  readonly metMs: number;
}

/** A skid whose record was drawn, so that the truth is known. */
export interface SweptSkid {
  readonly key: string;
  readonly facts: OutlookFacts;
  readonly runs: readonly TrueRun[];
  /** As its gateway logs it */
  readonly logged: RecordOfSkid;
}
