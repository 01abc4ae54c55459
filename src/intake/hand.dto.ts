import { Type } from 'class-transformer';
import {
  ArrayMaxSize,
  ArrayMinSize,
  IsArray,
  IsBoolean,
  IsIn,
  IsNumber,
  IsObject,
  IsPositive,
  IsString,
  IsUUID,
  Length,
  Max,
  Min,
  ValidateIf,
  ValidateNested,
} from 'class-validator';
import { IsName, IsText, MayBeLeftOut, View } from '../app/index.js';
import { SIGNALS, type SignalCode } from '../shared/signals.js';
import { UNITS, type UnitCode } from '../shared/units.js';

const SIGNAL_CODES = Object.keys(SIGNALS) as SignalCode[];
const UNIT_CODES = Object.keys(UNITS) as UnitCode[];

export class HandValueDto {
  @IsIn(SIGNAL_CODES)
  signal!: SignalCode;

  @IsNumber()
  value!: number;

  @IsIn(UNIT_CODES)
  unit!: UnitCode;

  /** Of the gauge, in the same unit; without it the last digit of the value stands for it */
  @MayBeLeftOut()
  @IsPositive()
  smallestDivision?: number;
}

export class HandMeterDto {
  @IsUUID()
  meterId!: string;

  @IsNumber()
  value!: number;
}

export class HandTankDto {
  @IsUUID()
  tankId!: string;

  /** One of levelM and levelCm */
  @ValidateIf(({ levelM, levelCm }: HandTankDto) => levelM !== undefined || levelCm === undefined)
  @IsNumber()
  levelM?: number;

  @ValidateIf(({ levelM, levelCm }: HandTankDto) => levelCm !== undefined && levelM === undefined)
  @IsNumber()
  levelCm?: number;

  @MayBeLeftOut()
  @IsNumber()
  strengthGL?: number;
}

export class HandReadingDto {
  /** ISO 8601; without an offset it is the time of the site */
  @IsString()
  @Length(8, 40)
  at!: string;

  @MayBeLeftOut()
  @IsNumber()
  minutesSinceBackwash?: number;

  @IsArray()
  @ArrayMaxSize(40)
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => HandValueDto)
  values: HandValueDto[] = [];

  @IsArray()
  @ArrayMaxSize(100)
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => HandMeterDto)
  meters: HandMeterDto[] = [];

  @IsArray()
  @ArrayMaxSize(40)
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => HandTankDto)
  tanks: HandTankDto[] = [];

  @MayBeLeftOut()
  @IsText(1000)
  note?: string;

  /** Who read the gauges, where it was somebody else than the caller */
  @MayBeLeftOut()
  @IsName(200)
  readBy?: string;
}

export class HandReadingsDto {
  @IsArray()
  @ArrayMinSize(1)
  @ArrayMaxSize(2000)
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => HandReadingDto)
  readings!: HandReadingDto[];

  /** Say what would happen, and write nothing */
  @IsBoolean()
  dryRun: boolean = false;

  /** Let a differing value take the place of the earlier one, which is kept aside */
  @IsBoolean()
  replaceDiffering: boolean = false;
}

export class PasteColumnDto {
  /** `time`, `minutes since backwash`, `note`, `read by`, `skip`, the code of a signal, `meter <id>` or `tank <id>` */
  @IsString()
  @Length(1, 60)
  as!: string;

  /** Of a signal, and of a tank's level (m, cm, mm, ft, in) */
  @MayBeLeftOut()
  @IsIn(UNIT_CODES)
  unit?: UnitCode;

  @MayBeLeftOut()
  @IsPositive()
  smallestDivision?: number;
}

export class HandPasteDto {
  /** Rows as copied from a sheet: one reading a line, cells apart by tab, semicolon or comma */
  @IsText(2_000_000)
  text!: string;

  /** What each column is, from the left */
  @IsArray()
  @ArrayMinSize(2)
  @ArrayMaxSize(200)
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => PasteColumnDto)
  columns!: PasteColumnDto[];

  /** `iso`, or a pattern such as `dd.MM.yyyy HH:mm` */
  @IsString()
  @Length(1, 60)
  timeFormat: string = 'iso';

  @IsIn(['.', ','])
  decimal: '.' | ',' = '.';

  /** Lines above the first reading */
  @IsNumber()
  @Min(0)
  @Max(100)
  headerLines: number = 0;

  /** Who read the gauges, where it was somebody else than the caller */
  @MayBeLeftOut()
  @IsName(200)
  readBy?: string;

  @IsBoolean()
  dryRun: boolean = false;

  @IsBoolean()
  replaceDiffering: boolean = false;
}

export class SheetGaugeView extends View {
  readonly signal!: SignalCode;
  readonly label!: string;
  /** In which this skid's gauge is read */
  readonly unit!: UnitCode;
  readonly unitLabel!: string;
  readonly smallestDivision!: number | null;
  /** In `unit`; null: never read by hand */
  readonly lastValue!: number | null;
  readonly lastAt!: Date | null;
  readonly caution!: string | null;
}

export class SheetMeterView extends View {
  readonly meterId!: string;
  readonly label!: string;
  readonly kind!: string;
  readonly lastValue!: number | null;
  readonly lastAt!: Date | null;
}

export class SheetTankView extends View {
  readonly tankId!: string;
  readonly label!: string;
  readonly chemical!: string;
  readonly heightM!: number;
  readonly lastLevelM!: number | null;
  readonly lastStrengthGL!: number | null;
  readonly lastAt!: Date | null;
}

/** What the gauges of a skid show: the fields of the form and of the printed sheet */
export class HandSheetView extends View {
  readonly skidId!: string;
  readonly skidName!: string;
  readonly siteName!: string;
  readonly timeZone!: string;
  readonly asksMinutesSinceBackwash!: boolean;
  readonly gauges!: SheetGaugeView[];
  readonly meters!: SheetMeterView[];
  readonly tanks!: SheetTankView[];
  readonly cautions!: string[];
}
