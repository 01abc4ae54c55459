/** A job sheet as it is sent. */
export interface JobReport {
  readonly id: string;
  readonly offline: boolean;
  readonly startedAt: string;
  readonly finishedAt: string;
  readonly minutes: number;
  readonly outcome: 'finished' | 'to be continued';
  readonly tasks: readonly TaskReport[];
  readonly partsUsed: readonly object[];
  readonly partsFitted: readonly object[];
  readonly partsRemoved: readonly object[];
  readonly meters: readonly object[];
  readonly readings: readonly object[];
  readonly cleans: readonly object[];
  readonly integrityTests: readonly object[];
  readonly fibreRepairs: readonly object[];
  readonly calibrations: readonly object[];
  readonly serviceState?: string;
  readonly breakdown?: object;
  readonly followUps: readonly object[];
  readonly note?: string;
  readonly signedBy: string;
  readonly attachmentIds: readonly string[];
}

export interface TaskReport {
  readonly taskId: string;
  readonly outcome: 'done' | 'not done';
  readonly whyNot?: string;
  readonly note?: string;
  readonly steps: readonly StepReport[];
}

interface StepReport {
  readonly no: number;
  readonly outcome: 'done' | 'skipped';
  readonly value?: number;
  readonly unit?: string;
  readonly yes?: boolean;
  readonly why?: string;
  readonly attachmentIds?: readonly string[];
}
