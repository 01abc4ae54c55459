import type { Schemas } from '../api/client.js';

/** A photograph on the device; its bytes are kept apart. */
export interface PhotoRef {
  readonly id: string;
  /** Which part of the sheet it belongs to; it goes along as the place within the record */
  readonly place: string;
  readonly name: string;
  readonly mediaType: 'image/jpeg' | 'image/png';
  readonly bytes: number;
}

/** Why something was not taken, in the words of the service. */
export interface Refusal {
  readonly title: string;
  readonly errors: readonly { readonly pointer: string; readonly message: string }[];
}

/** What the outbox must know of a report; the rest goes through as it is. */
export interface ReportBody {
  readonly id: string;
  readonly offline: boolean;
  readonly attachmentIds: readonly string[];
  readonly tasks: readonly { readonly steps: readonly { readonly attachmentIds?: readonly string[] }[] }[];
}

/** A job sheet with its photographs on the way to the service. It belongs to the person who filled it in. */
export interface Parcel<Report extends ReportBody = ReportBody> {
  readonly id: string;
  readonly personId: string;
  readonly personName: string;
  readonly jobId: string;
  /** Job, skid and site in words */
  readonly title: string;
  readonly queuedAt: string;
  readonly report: Report;
  /** It replaces a report that is held there */
  readonly corrects: boolean;
  readonly photoIds: readonly string[];
  readonly unsent: readonly PhotoRef[];
  readonly refusedPhotos: readonly { readonly photo: PhotoRef; readonly reason: string }[];
  /** It may have arrived although no answer came */
  readonly tries: number;
  /** The service would not take it: its person must change it */
  readonly refused: Refusal | null;
  /** The report is stored; only photographs that were refused are left */
  readonly isStored: boolean;
}

/** What became of a report, as the service tells it. */
export type ReportAnswer = Pick<Schemas['ReportAnswerView'], 'id' | 'state' | 'problems'>;

/** Kept for the person until the next sheets come. */
export interface KeptAnswer extends ReportAnswer {
  readonly jobId: string;
  readonly title: string;
  readonly at: string;
}

/** A report without the photographs that could not be stored. */
export function withoutPhotos<Report extends ReportBody>(report: Report, gone: readonly string[]): Report {
  if (gone.length === 0) return report;
  const rest = (ids: readonly string[]) => ids.filter((id) => !gone.includes(id));
  return {
    ...report,
    attachmentIds: rest(report.attachmentIds),
    tasks: report.tasks.map((task) => ({
      ...task,
      steps: task.steps.map((step) => (step.attachmentIds === undefined ? step : { ...step, attachmentIds: rest(step.attachmentIds) })),
    })),
  };
}
