import { View } from '../app/index.js';
import type { StepKind, TaskKind } from '../shared/task-sheet.js';
import type { JobKind, JobState } from '../shared/work.js';

export class LastValueView extends View {
  readonly value!: number;
  readonly unit!: string;
  readonly at!: Date;
}

export class SheetStepView extends View {
  readonly no!: number;
  readonly kind!: StepKind;
  readonly text!: string;
  /** It keeps people or water safe: left out only with a reason */
  readonly safety!: boolean;
  readonly signal!: string | null;
  readonly unit!: string | null;
  readonly low!: number | null;
  readonly high!: number | null;
  readonly last!: LastValueView | null;
}

export class JobPartView extends View {
  readonly itemId!: string;
  readonly code!: string;
  readonly name!: string;
  readonly unit!: string;
  /** A decimal number */
  readonly quantity!: string;
}

export class JobChemicalView extends View {
  readonly chemical!: string;
  readonly litres!: number;
  readonly strength!: string;
}

export class FittedNowView extends View {
  readonly partId!: string;
  readonly itemId!: string;
  readonly code!: string;
  readonly name!: string;
  readonly serialNumber!: string | null;
  readonly lot!: string | null;
  readonly fittedAt!: Date;
}

export class SheetTaskView extends View {
  readonly taskId!: string;
  readonly task!: string;
  readonly kind!: TaskKind;
  readonly positionId!: string | null;
  readonly positionName!: string | null;
  readonly reason!: string;
  readonly expectedMinutes!: number | null;
  readonly waterOffMinutes!: number;
  readonly note!: string;
  readonly steps!: SheetStepView[];
  readonly parts!: JobPartView[];
  readonly tools!: string[];
  readonly instruments!: string[];
  readonly chemicals!: JobChemicalView[];
  /** What is fitted at the position now */
  readonly fitted!: FittedNowView | null;
}

export class JobMeterReadingView extends View {
  readonly value!: number;
  readonly at!: Date;
}

export class JobMeterView extends View {
  readonly meterId!: string;
  readonly positionName!: string;
  readonly kind!: string;
  readonly last!: JobMeterReadingView | null;
}

export class SheetPositionView extends View {
  readonly id!: string;
  readonly name!: string;
  readonly kind!: string;
}

export class CautionView extends View {
  readonly about!: string;
  readonly text!: string;
}

/** A job as whoever does it needs it. */
export class SheetView extends View {
  readonly jobId!: string;
  readonly no!: number;
  readonly version!: number;
  readonly kind!: JobKind;
  readonly title!: string;
  readonly request!: string;
  readonly state!: JobState;
  readonly skidId!: string;
  readonly skidName!: string;
  readonly siteName!: string;
  readonly clientName!: string;
  readonly timeZone!: string;
  readonly cautions!: CautionView[];
  readonly tasks!: SheetTaskView[];
  readonly meters!: JobMeterView[];
  readonly positions!: SheetPositionView[];
}
