import { Type } from 'class-transformer';
import { ArrayMaxSize, IsArray, IsIn, IsNumber, IsOptional, ValidateNested } from 'class-validator';
import { IsDay, IsMoment, IsName, IsText, MayBeLeftOut, View } from '../app/index.js';
import { SIGNALS, type SignalCode } from '../shared/signals.js';
import { UNITS, type UnitCode } from '../shared/units.js';
import type { ToleranceCheck } from './core/calibration-figures.js';
import type { Figure } from './core/figures-fed.js';

/** One point at which the instrument was compared with the reference. */
export class ComparedPointDto {
  /** What the reference showed */
  @IsNumber()
  reference!: number;

  @IsNumber()
  asFound!: number;

  /** After an adjustment; missing: nothing was adjusted here */
  @IsOptional()
  @IsNumber()
  asLeft?: number | null;
}

/** An instrument compared with a reference. All values are in `unit`. */
export class CalibrationDto {
  /** When it was compared; missing: now */
  @IsOptional()
  @IsMoment()
  at?: string | null;

  /** Missing: what the position says that it measures */
  @IsOptional()
  @IsIn(Object.keys(SIGNALS))
  signal?: SignalCode | null;

  @IsIn(Object.keys(UNITS))
  unit!: UnitCode;

  /** How far the instrument may be off, either way */
  @IsNumber()
  tolerance!: number;

  @IsName(200)
  referenceInstrument!: string;

  /** Of the reference */
  @MayBeLeftOut()
  @IsText(100)
  certificateNo?: string;

  @IsArray()
  @ArrayMaxSize(20)
  @ValidateNested({ each: true })
  @Type(() => ComparedPointDto)
  points!: ComparedPointDto[];

  /** Local date of the next calibration */
  @IsOptional()
  @IsDay()
  nextOn?: string | null;

  @MayBeLeftOut()
  @IsText(1000)
  note?: string;
}

export class ComparedPointView extends View {
  readonly reference!: number;
  readonly asFound!: number;
  readonly asLeft!: number | null;
}

/** Readings of a signal from one moment to another rest on an instrument that was out of tolerance. They are marked, not changed. */
export class DoubtfulTimeView extends View {
  readonly signal!: string;
  /** null: since the record began */
  readonly fromAt!: Date | null;
  /** null: until the next calibration */
  readonly toAt!: Date | null;
  /** Reading less reference, in the stored unit of the signal */
  readonly error!: number;
  readonly reason!: string;
}

export class CalibrationView extends View {
  readonly id!: string;
  readonly skidId!: string;
  readonly positionId!: string;
  readonly positionName!: string;
  readonly signal!: string;
  readonly unit!: string;
  readonly at!: Date;
  readonly by!: string;
  readonly referenceInstrument!: string;
  readonly certificateNo!: string;
  readonly tolerance!: number;
  readonly points!: ComparedPointView[];
  /** Reading less reference at the worst point */
  readonly worstAsFound!: number;
  /** null: nothing was adjusted */
  readonly worstAsLeft!: number | null;
  readonly asFound!: ToleranceCheck;
  readonly asLeft!: ToleranceCheck;
  /** Error at the lowest reference, as found */
  readonly zeroError!: number;
  /** Error at the highest reference less that at the lowest, as found; null: compared at one value only */
  readonly spanError!: number | null;
  readonly nextOn!: string | null;
  readonly note!: string;
  /** Readings that it puts in doubt; null: none */
  readonly doubtful!: DoubtfulTimeView | null;
}

export class CalibrationsPageView extends View {
  readonly items!: CalibrationView[];
  readonly next!: string | null;
}

export class FedFigureView extends View {
  readonly figure!: Figure;
  /** Days with this figure in the time of doubt */
  readonly days!: number;
}

export class FedOutlookView extends View {
  readonly id!: string;
  /** `membranes`, or the name of the position */
  readonly subject!: string;
  readonly limitKind!: string;
  /** Local date of the latest reading that it knew */
  readonly originOn!: string;
  readonly reason!: string;
}

export class FedDueView extends View {
  readonly id!: string;
  readonly task!: string;
  readonly positionName!: string | null;
  readonly bestOn!: string | null;
  readonly reason!: string;
}

/** What rests on the readings that a calibration puts in doubt. */
export class CalibrationFedView extends View {
  readonly calibrationId!: string;
  readonly doubtful!: DoubtfulTimeView | null;
  /** First and last day of condition in the time of doubt, by the site's calendar; null: none */
  readonly firstDay!: string | null;
  readonly lastDay!: string | null;
  readonly figures!: FedFigureView[];
  /** Forecasts made from such days, the latest first, at most 200 */
  readonly outlooks!: FedOutlookView[];
  readonly dues!: FedDueView[];
  /** In sentences */
  readonly summary!: string[];
}
