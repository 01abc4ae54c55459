import { ApiProperty } from '@nestjs/swagger';
import { View } from '../../app/index.js';
import { BLOCKING_LAWS, type BlockingLaw } from '../core/fouling/blocking-laws.js';

/** Resistance of a day by what would take it away, in 1e12 per metre; null: nothing tells it. */
export class ResistanceDayView extends View {
  /** Local date */
  readonly day!: string;
  readonly clean!: number;
  readonly irreversible!: number | null;
  readonly cip!: number | null;
  readonly ceb!: number | null;
  readonly hydraulic!: number | null;
}

/** A chemical clean and what it gave back, in L/m2 h bar at the reference temperature. */
export class CleanRecoveryView extends View {
  readonly kind!: 'CEB' | 'CIP';
  readonly day!: string;
  readonly beforeLmhBar!: number | null;
  readonly afterLmhBar!: number | null;
  /** Share of the permeability when new */
  readonly ofNew!: number | null;
  /** Share of what the clean of the same kind before gave back */
  readonly ofLast!: number | null;
}

export class InferredCleanView extends View {
  readonly day!: string;
  readonly fromLmhBar!: number;
  readonly toLmhBar!: number;
}

/** How fast the membranes foul by the water filtered since the latest chemical clean, or the latest recovery clean where maintenance cleans come too often. */
export class FoulingIndexView extends View {
  /** m2/L; null: too little data, and `inWords` says what is missing */
  readonly perM2L!: number | null;
  readonly standardError!: number | null;
  readonly days!: number;
  readonly inWords!: string;
}

/** How closely the pressure follows a blocking law, and how long the membranes would last by it. */
export class LawFitView extends View {
  @ApiProperty({ enum: BLOCKING_LAWS })
  readonly law!: BlockingLaw;
  /** Middle distance of the days from the law, as a share of the pressure */
  readonly scatter!: number;
  /** Until the start of runs meets the limit, at the load of the last fortnight; null: not to be said */
  readonly daysToLimit!: number | null;
}

/** By which law the pressure just after hydraulic cleans rises since the latest recovery clean. */
export class BlockingView extends View {
  /** Whether the first law is told from the others by more than scatter */
  readonly told!: boolean;
  readonly inWords!: string;
  /** The closest first; none: too little data, and `inWords` says what is missing */
  @ApiProperty({ type: () => [LawFitView] })
  readonly laws!: LawFitView[];
}

export class InstrumentDoubtView extends View {
  readonly about!: 'stuck' | 'two measures differ' | 'drift' | 'unit' | 'zero';
  readonly signals!: string[];
  readonly since!: Date;
  readonly text!: string;
  readonly makesDoubtful!: string[];
}

export class OxidantExposureView extends View {
  /** Sum of concentration times contact time, ppm h */
  readonly ppmH!: number;
  readonly contacts!: number;
  /** Contacts without strength or time on record */
  readonly unknown!: number;
}

/** What fouls the membranes of a skid, what cleans gave back, and which instruments do not fit the others. */
export class FoulingView extends View {
  readonly referenceC!: number;
  /** Permeability when new, or what stands in for it; null: not known, and then nothing is split */
  readonly newLmhBar!: number | null;
  readonly newAssumed!: boolean;
  readonly days!: ResistanceDayView[];
  readonly index!: FoulingIndexView;
  readonly blocking!: BlockingView;
  readonly recoveries!: CleanRecoveryView[];
  /** Whether recovery cleans give back less and less, in a sentence; null: too few to say */
  readonly decline!: string | null;
  readonly inferred!: InferredCleanView[];
  readonly exposure!: OxidantExposureView;
  /** For staff; a client sees none */
  @ApiProperty({ type: () => [InstrumentDoubtView] })
  readonly doubts!: InstrumentDoubtView[];
  /** What a reader must know, in sentences */
  readonly remarks!: string[];
}
