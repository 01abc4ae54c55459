import type { ReportSummary } from '../../jobs/core/report-summary.js';
import type { PeriodBreakdown, PeriodCalibration, PeriodRepair, PeriodTest } from './period-data.js';

export interface JobRecord {
  readonly id: string;
  readonly no: number;
  readonly kind: string;
  readonly title: string;
  /** In the words of whoever asked */
  readonly request: string;
  readonly state: string;
  readonly stateNote: string;
  readonly skidName: string;
  readonly siteName: string;
  readonly clientName: string;
  readonly timeZone: string;
  readonly createdAt: Date;
  readonly createdBy: string;
  readonly finishedAt: Date | null;
  readonly finishedBy: string | null;
}

export interface JobTaskRecord {
  readonly task: string;
  readonly positionName: string | null;
  readonly reason: string;
  readonly dueOn: string | null;
  readonly outcome: string | null;
  readonly doneAt: Date | null;
}

/** A job sheet that counts, as everybody may read it, with the proofs that came with it. */
export interface SheetRecord {
  readonly id: string;
  readonly by: string;
  readonly startedAt: Date;
  readonly finishedAt: Date;
  readonly minutes: number;
  readonly summary: ReportSummary;
  readonly signedBy: string;
  readonly tests: readonly PeriodTest[];
  readonly repairs: readonly PeriodRepair[];
  readonly calibrations: readonly PeriodCalibration[];
}

/** A file of a job or of its sheets; without content where it is no photograph that can be drawn, or one too many. */
export interface FileRecord {
  readonly name: string;
  readonly by: string;
  readonly at: Date;
  readonly content: Uint8Array | null;
}

/** All that a report says of a job. */
export interface JobFacts {
  readonly job: JobRecord;
  readonly tasks: readonly JobTaskRecord[];
  readonly sheets: readonly SheetRecord[];
  /** What the client was told */
  readonly told: readonly { readonly at: Date; readonly by: string; readonly note: string }[];
  readonly breakdowns: readonly PeriodBreakdown[];
  readonly files: readonly FileRecord[];
}

export interface VisitFacts {
  readonly no: number;
  readonly onDay: string;
  readonly startTime: string;
  readonly minutes: number;
  readonly state: string;
  readonly noteToClient: string;
  readonly siteName: string;
  readonly clientName: string;
  readonly timeZone: string;
  readonly people: readonly string[];
  readonly jobs: readonly JobFacts[];
}
