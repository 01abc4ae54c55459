import { SIGNALS, type SignalCode } from '../../shared/signals.js';
import type { UnitCode } from '../../shared/units.js';
import { DEFAULT_SAMPLING_GATES, type SamplingGates } from './gates.js';
import type { DecimalMark } from './read-number.js';

export const FILE_KINDS = ['samples', 'cycles', 'events'] as const;
export type FileKind = (typeof FILE_KINDS)[number];
export const PROFILE_KINDS = [...FILE_KINDS, 'hand'] as const;
export type ProfileKind = (typeof PROFILE_KINDS)[number];

export const DELIMITERS = ['auto', ',', ';', 'tab'] as const;
export const ENCODINGS = ['utf-8', 'windows-1252', 'utf-16le'] as const;

export interface ProfileColumn {
  /** Its name in the header, or `#3` for the third column; of a gauge, what stands on it */
  readonly column: string;
  /** Of samples and gauges: what it shows. Of cycles and events: which field of ours */
  readonly as: string;
  readonly unit: UnitCode | null;
  /** Of a signal that belongs to one machine */
  readonly positionId: string | null;
  /** Of a gauge, in `unit` */
  readonly smallestDivision: number | null;
}

/** How cycles are told from samples. */
export interface ProfileSegmentation {
  /** Values of the operating mode that mean filtration; null: told from the flow */
  readonly filtrationModes: readonly number[] | null;
  /** A flow above this share of the rated flow is filtration */
  readonly filtrationFlowShare: number;
  readonly maxGapMinutes: number;
}

export interface ProfileGates extends SamplingGates {
  /** A pressure or flow that shows the same value so often in a row is stuck; null: not looked for */
  readonly stuckAfter: number | null;
}

/** How the exports of one plant are to be read. */
export interface LogProfileDefinition {
  readonly delimiter: (typeof DELIMITERS)[number];
  readonly encoding: (typeof ENCODINGS)[number];
  readonly decimal: DecimalMark;
  /** Lines above the header */
  readonly skipLines: number;
  readonly timeColumn: string;
  /** `iso`, `unix s`, `unix ms`, or a pattern of date-fns */
  readonly timeFormat: string;
  /** A zone of the IANA database, or `site` */
  readonly timeZone: string;
  readonly columns: readonly ProfileColumn[];
  readonly missingValues: readonly string[];
  /** Words of the export and what they stand for: `Filtration` for `1`, `Spülung` for `CEB` */
  readonly words: Readonly<Record<string, string>>;
  readonly segmentation: ProfileSegmentation;
  readonly gates: ProfileGates;
}

/** Common practice. */
export const DEFAULT_SEGMENTATION: ProfileSegmentation = { filtrationModes: null, filtrationFlowShare: 0.8, maxGapMinutes: 30 };
export const DEFAULT_GATES: ProfileGates = { ...DEFAULT_SAMPLING_GATES, stuckAfter: null };

/** How a file is read that has the documented columns: comma or semicolon or tab, decimal point, ISO 8601 in the zone of the site. */
export const PLAIN_PROFILE: LogProfileDefinition = {
  delimiter: 'auto',
  encoding: 'utf-8',
  decimal: '.',
  skipLines: 0,
  timeColumn: 'at',
  timeFormat: 'iso',
  timeZone: 'site',
  columns: [],
  missingValues: [],
  words: {},
  segmentation: DEFAULT_SEGMENTATION,
  gates: DEFAULT_GATES,
};

/** Columns of a file of samples without a profile: `at`, and signals of the skid by their code in the stored unit. */
export const PLAIN_SAMPLE_COLUMNS: readonly ProfileColumn[] = (Object.keys(SIGNALS) as SignalCode[])
  .filter((code) => !('ofPosition' in SIGNALS[code]))
  .map((code) => ({ column: code, as: code, unit: SIGNALS[code].unit, positionId: null, smallestDivision: null }));
