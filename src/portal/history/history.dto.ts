import { IsIn, IsOptional } from 'class-validator';
import { IsDay, PageQuery, View } from '../../app/index.js';
import { HISTORY_KINDS, type HistoryKind } from '../../shared/history-kinds.js';
import type { JobState, Severity } from '../../shared/work.js';

export class HistoryQuery extends PageQuery {
  @IsOptional()
  @IsIn(HISTORY_KINDS)
  kind?: HistoryKind;

  /** First day, at the site */
  @IsOptional()
  @IsDay()
  from?: string;

  /** Last day, at the site */
  @IsOptional()
  @IsDay()
  to?: string;
}

export class HistoryEntryView extends View {
  readonly id!: string;
  readonly kind!: HistoryKind;
  /** More closely: service, clean, integrity test, fibre repair, fitted, removed, breakdown, request, calibration, exchange, state */
  readonly event!: string;
  readonly at!: Date;
  readonly positionId!: string | null;
  readonly positionName!: string | null;
  /** What happened, in words */
  readonly what!: string;
  readonly by!: string;
  readonly note!: string;
  /** Of a breakdown or a request: the job, which tells what became of it */
  readonly jobId!: string | null;
  readonly state!: JobState | null;
  /** Of a breakdown */
  readonly severity!: Severity | null;
}

export class SkidHistoryView extends View {
  readonly items!: HistoryEntryView[];
  readonly next!: string | null;
  /** All that match */
  readonly total!: number;
}
