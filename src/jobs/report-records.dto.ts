import { IsBoolean, IsIn, IsInt, IsNumber, IsOptional, IsUUID, Matches, Max, Min } from 'class-validator';
import { IsMoment, IsName, IsText, MayBeLeftOut } from '../app/index.js';
import { FAILURE_MECHANISM_CODES, FAILURE_MODES, type FailureMechanism, type FailureMode } from '../shared/failure-terms.js';
import { SIGNALS, type SignalCode } from '../shared/signals.js';
import { UNITS, type UnitCode } from '../shared/units.js';
import { SEVERITIES, type Severity } from '../shared/work.js';

const IsQuantity = () =>
  Matches(/^(?!0+(\.0+)?$)\d{1,9}(\.\d{1,6})?$/, { message: '$property must be a decimal number above 0, as text, such as "2" or "0.5"' });

export class PartUsedDto {
  @IsUUID()
  itemId!: string;

  @IsQuantity()
  quantity!: string;

  @IsOptional()
  @IsName(100)
  lot?: string | null;

  /** Where it was taken from; missing: not from our stock, so nothing is taken off it */
  @IsOptional()
  @IsUUID()
  placeId?: string | null;

  /** There was more in that place than the count says */
  @IsBoolean()
  countWasWrong: boolean = false;
}

export class PartFittedDto {
  @IsUUID()
  positionId!: string;

  @IsUUID()
  itemId!: string;

  @IsOptional()
  @IsName(100)
  serialNumber?: string | null;

  @IsOptional()
  @IsName(100)
  lot?: string | null;

  @IsInt()
  @Min(1)
  @Max(10_000)
  setCount: number = 1;

  /** Why the part before was removed */
  @IsOptional()
  @IsName(200)
  removalReason?: string | null;

  /** Where it was taken from; missing: not from our stock */
  @IsOptional()
  @IsUUID()
  fromPlaceId?: string | null;

  @IsBoolean()
  countWasWrong: boolean = false;

  @IsOptional()
  @IsMoment()
  at?: string | null;
}

export class PartRemovedDto {
  @IsUUID()
  positionId!: string;

  @IsName(200)
  reason!: string;

  /** Where it was taken to; missing: thrown away */
  @IsOptional()
  @IsUUID()
  toPlaceId?: string | null;

  @IsOptional()
  @IsMoment()
  at?: string | null;
}

export class MeterReportDto {
  @IsUUID()
  meterId!: string;

  @IsNumber()
  value!: number;

  /** The meter was exchanged: the last value of the old one */
  @IsOptional()
  @IsNumber()
  exchangedOldFinal?: number | null;
}

export class ReadingReportDto {
  @IsIn(Object.keys(SIGNALS))
  signal!: SignalCode;

  @IsNumber()
  value!: number;

  @IsIn(Object.keys(UNITS))
  unit!: UnitCode;
}

export class CleanReportDto {
  @IsIn(['CEB', 'CIP'])
  kind!: 'CEB' | 'CIP';

  @IsName(100)
  chemical!: string;

  @IsOptional()
  @IsNumber()
  strengthMgL?: number | null;

  @IsOptional()
  @IsNumber()
  contactMinutes?: number | null;

  @IsText(1000)
  note: string = '';
}

export class BreakdownReportDto {
  @IsOptional()
  @IsMoment()
  restoredAt?: string | null;

  @IsOptional()
  @IsMoment()
  downFrom?: string | null;

  @IsOptional()
  @IsNumber()
  @Min(0)
  @Max(525_600)
  repairMinutes?: number | null;

  @IsOptional()
  @IsIn(FAILURE_MODES)
  failureMode?: FailureMode | null;

  @IsOptional()
  @IsIn(FAILURE_MECHANISM_CODES)
  mechanism?: FailureMechanism | null;

  @MayBeLeftOut()
  @IsText(2000)
  cause?: string;

  @MayBeLeftOut()
  @IsText(2000)
  remedy?: string;
}

export class FollowUpDto {
  @IsName(160)
  title!: string;

  @IsText(4000)
  request: string = '';

  /** With it, it is a breakdown */
  @IsOptional()
  @IsIn(SEVERITIES)
  severity?: Severity | null;
}
