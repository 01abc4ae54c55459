import { IsBoolean, IsIn, IsNumber, IsString, IsUUID, Length, ValidateIf } from 'class-validator';
import { IsName, IsText, MayBeLeftOut, View } from '../app/index.js';

export class EventDto {
  /** ISO 8601; without an offset it is the time of the site */
  @IsString()
  @Length(8, 40)
  at!: string;

  /** Who did or saw it, where it was somebody else than the caller */
  @MayBeLeftOut()
  @IsName(200)
  by?: string;

  /** Let a differing entry of the same time take the place of the earlier one, which is kept aside */
  @IsBoolean()
  replaceDiffering: boolean = false;
}

export class CleanDto extends EventDto {
  @IsIn(['CEB', 'CIP'])
  kind!: 'CEB' | 'CIP';

  @IsName(100)
  chemical!: string;

  @MayBeLeftOut()
  @IsNumber()
  strengthMgL?: number;

  @MayBeLeftOut()
  @IsNumber()
  contactMinutes?: number;

  @IsText(1000)
  note: string = '';
}

export class MeterReadingDto extends EventDto {
  /** `exchange`: the meter was exchanged, `value` is the first of the new one */
  @IsIn(['reading', 'exchange'])
  kind: 'reading' | 'exchange' = 'reading';

  @IsNumber()
  value!: number;

  /** The last value of the old meter */
  @ValidateIf(({ kind, oldFinal }: MeterReadingDto) => kind === 'exchange' || oldFinal !== undefined)
  @IsNumber()
  oldFinal?: number;
}

export class DipDto extends EventDto {
  /** One of levelM and levelCm */
  @ValidateIf(({ levelM, levelCm }: DipDto) => levelM !== undefined || levelCm === undefined)
  @IsNumber()
  levelM?: number;

  @ValidateIf(({ levelM, levelCm }: DipDto) => levelCm !== undefined && levelM === undefined)
  @IsNumber()
  levelCm?: number;

  @MayBeLeftOut()
  @IsNumber()
  strengthGL?: number;

  /** Of the stick or gauge, in metres; without it 1 cm */
  @MayBeLeftOut()
  @IsNumber()
  smallestDivisionM?: number;
}

export class ServiceEntryDto extends EventDto {
  /** Missing: at the skid as a whole */
  @MayBeLeftOut()
  @IsUUID()
  positionId?: string;

  @IsName(200)
  task!: string;

  @MayBeLeftOut()
  @IsNumber()
  minutes?: number;

  @IsText(1000)
  note: string = '';
}

export class ServiceLogEntryView extends View {
  readonly id!: string;
  /** clean, fitted, removed, service, exchange, state */
  readonly kind!: string;
  readonly at!: Date;
  readonly positionId!: string | null;
  readonly positionName!: string | null;
  /** What happened, in words */
  readonly what!: string;
  readonly by!: string;
  readonly note!: string;
}

export class ServiceLogView extends View {
  readonly items!: ServiceLogEntryView[];
  readonly next!: string | null;
}
