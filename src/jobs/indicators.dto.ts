import { Type } from 'class-transformer';
import { IsIn, IsOptional, IsUUID, Max, Min } from 'class-validator';
import { IsDay, View } from '../app/index.js';
import { FAILURE_MECHANISM_CODES, FAILURE_MODES, type FailureMechanism, type FailureMode } from '../shared/failure-terms.js';
import { COUNTED, type Counted } from './core/indicators/breakdown-fact.js';

/** Of one skid, of a client's, or of the fleet; the last 365 days where no day is given. */
export class IndicatorsQuery {
  @IsOptional()
  @IsUUID()
  skidId?: string;

  @IsOptional()
  @IsUUID()
  clientId?: string;

  @IsOptional()
  @IsDay()
  from?: string;

  /** Its day still counts */
  @IsOptional()
  @IsDay()
  to?: string;

  /** What counts as a failure: `stops` (no water) or `all` breakdowns */
  @IsIn(COUNTED)
  count: Counted = 'stops';

  /** Only failures at this position of the skid */
  @IsOptional()
  @IsUUID()
  positionId?: string;

  /** Only failures of this mode */
  @IsOptional()
  @IsIn(FAILURE_MODES)
  failureMode?: FailureMode;

  /** Only failures by this mechanism, by its code in ISO 14224 */
  @IsOptional()
  @IsIn(FAILURE_MECHANISM_CODES)
  mechanism?: FailureMechanism;

  /** Hours that the crew has for jobs in a week; missing: three quarters of 40 hours for each technician */
  @IsOptional()
  @Type(() => Number)
  @Min(0)
  @Max(100_000)
  crewHours?: number;
}

export class QuantityView extends View {
  readonly value!: number;
  readonly unit!: string;
  readonly meaning!: string;
}

export class IndicatorView extends View {
  readonly code!: string;
  readonly name!: string;
  readonly value!: number | null;
  readonly unit!: string;
  readonly numerator!: QuantityView;
  readonly denominator!: QuantityView;
  readonly formula!: string;
  readonly meaning!: string;
  /** Whose terms these are */
  readonly source!: string;
  /** With 90 % confidence the true value lies above */
  readonly lowerLimit!: number | null;
  /** What the figure leaves out */
  readonly remarks!: string[];
  /** Why there is no value, or why little can be made of it */
  readonly tooLittle!: string | null;
}

export class IndicatorsView extends View {
  readonly from!: string;
  readonly to!: string;
  readonly skids!: number;
  readonly indicators!: IndicatorView[];
}
