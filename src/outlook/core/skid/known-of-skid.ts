import type { Baselines } from '../../../condition/core/baseline.js';
import type { PressureBasis } from '../../../instruments/core/figures-fed.js';
import type { OutlookLimit } from '../../../shared/upkeep-terms.js';
import type { DoubtOfSignal } from '../doubts-of-outlook.js';
import type { LimitOfPart } from '../modules/module-outlook.js';

/** An outlook in the form that is kept. */
export interface OutlookToStore {
  readonly subject: string;
  readonly partId: string | null;
  readonly limitKind: OutlookLimit | 'life';
  readonly limitValue: number;
  /** When new or clean, as the forecast saw it */
  readonly firstValue: number | null;
  /** By how much the record of earlier ones had its range widened */
  readonly stretch: number;
  readonly clock: string;
  readonly originAt: Date;
  readonly originDay: string;
  readonly model: string;
  readonly modelVersion: string;
  readonly kind: 'outlook' | 'limit-met' | 'too-little-data';
  readonly metByDay: readonly number[];
  readonly shareBeyond: number | null;
  readonly p10Days: number | null;
  readonly p50Days: number | null;
  readonly p90Days: number | null;
  readonly path: readonly { dayAhead: number; low: number; mid: number; high: number }[];
  readonly reason: string;
  readonly dataUsed: readonly string[];
  /** Where several limits make it together: each of them */
  readonly limits?: readonly LimitOfPart[];
}

/** What a skid is and how it runs, as far as its outlooks need it. */
export interface OutlookFacts extends PressureBasis {
  /** Names the skid among those that were learned from */
  readonly skidId?: string;
  /** Days on which modules or the membrane area changed */
  readonly membraneChanges?: readonly string[];
  readonly permeabilityLimitFraction: number;
  readonly cartridgeLimitKpa: number | null;
  readonly areaM2: number | null;
  readonly serviceState: string;
  readonly lastReadingAt: Date | null;
  readonly timeZone: string;
  readonly baselines: Baselines | null;
  readonly dailyLoadM3: number | null;
  readonly dailyLoadSd: number | null;
}

/** A day of its record. */
export interface OutlookDay {
  readonly day: string;
  readonly filtrateM3: number | null;
  readonly permeability: number | null;
  readonly fluxLmh?: number | null;
  readonly cartridgeDpKpa: number | null;
}

/** A cartridge set in a pre-filter, the present one (`removedOn` null) or an earlier one. */
export interface SetFitted {
  readonly positionId: string;
  readonly partId: string;
  readonly fittedOn: string;
  readonly removedOn: string | null;
  readonly removalReason: string | null;
  readonly itemId: string;
  readonly setCount: number;
}

export interface KnownOfSkid extends OutlookFacts {
  readonly doubts: readonly DoubtOfSignal[];
}
