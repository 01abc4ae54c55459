import { Type } from 'class-transformer';
import {
  ArrayMaxSize,
  IsArray,
  IsIn,
  IsInt,
  IsNumber,
  IsObject,
  IsOptional,
  IsString,
  IsUUID,
  Length,
  Max,
  Min,
  ValidateBy,
  ValidateNested,
} from 'class-validator';
import { IsName, PageQuery, View } from '../app/index.js';
import { UNITS, type UnitCode } from '../shared/units.js';
import { DEFAULT_GATES, DEFAULT_SEGMENTATION, DELIMITERS, ENCODINGS, PROFILE_KINDS, type ProfileKind } from './core/log-profile.js';

const UNIT_CODES = Object.keys(UNITS) as UnitCode[];

const isWords = (value: unknown): boolean =>
  typeof value === 'object' &&
  value !== null &&
  !Array.isArray(value) &&
  Object.entries(value).length <= 500 &&
  Object.entries(value).every((pair) => pair.every((text) => typeof text === 'string' && text.length <= 100 && !text.includes('\0')));

const IsWords = () =>
  ValidateBy({
    name: 'isWords',
    validator: { validate: isWords, defaultMessage: () => '$property must say for each word, as text, what it stands for, as text, up to 500 words' },
  });

export class ProfileColumnDto {
  /** Its name in the header, or `#3` for the third column; of a gauge, what stands on it */
  @IsString()
  @Length(1, 200)
  column!: string;

  /** Of samples and gauges: which signal. Of cycles and events: which field of ours */
  @IsString()
  @Length(1, 60)
  as!: string;

  /** UCUM code of the unit in which the column is written */
  @IsOptional()
  @IsIn(UNIT_CODES)
  unit: UnitCode | null = null;

  /** Of a signal that belongs to one machine */
  @IsOptional()
  @IsUUID()
  positionId: string | null = null;

  /** Of a gauge, in its unit */
  @IsOptional()
  @IsNumber()
  @Min(0)
  smallestDivision: number | null = null;
}

export class ProfileSegmentationDto {
  /** Values of the operating mode that mean filtration; unset: told from the flow */
  @IsOptional()
  @IsArray()
  @ArrayMaxSize(50)
  @IsNumber({}, { each: true })
  filtrationModes: number[] | null = null;

  @IsNumber()
  @Min(0.05)
  @Max(1)
  filtrationFlowShare: number = DEFAULT_SEGMENTATION.filtrationFlowShare;

  @IsNumber()
  @Min(0.1)
  @Max(10_080)
  maxGapMinutes: number = DEFAULT_SEGMENTATION.maxGapMinutes;
}

/** What the sampling can resolve; a gate that it cannot is said and not applied. */
export class ProfileGatesDto {
  /** After a change of state nothing is settled for so long */
  @IsNumber()
  @Min(0)
  @Max(3600)
  settleSeconds: number = DEFAULT_GATES.settleSeconds;

  @IsNumber()
  @Min(0)
  @Max(600)
  startFromMinutes: number = DEFAULT_GATES.startFromMinutes;

  @IsNumber()
  @Min(0)
  @Max(600)
  startToMinutes: number = DEFAULT_GATES.startToMinutes;

  @IsNumber()
  @Min(0)
  @Max(600)
  endMinutes: number = DEFAULT_GATES.endMinutes;

  /** A pressure or flow that shows the same value so often in a row is stuck; unset: not looked for */
  @IsOptional()
  @IsInt()
  @Min(2)
  @Max(100_000)
  stuckAfter: number | null = null;
}

export class ProfileDefinitionDto {
  @IsIn(DELIMITERS)
  delimiter: (typeof DELIMITERS)[number] = 'auto';

  @IsIn(ENCODINGS)
  encoding: (typeof ENCODINGS)[number] = 'utf-8';

  @IsIn(['.', ','])
  decimal: '.' | ',' = '.';

  /** Lines above the header */
  @IsInt()
  @Min(0)
  @Max(100)
  skipLines: number = 0;

  @IsString()
  @Length(1, 200)
  timeColumn: string = 'at';

  /** iso, unix s, unix ms, or a pattern such as dd.MM.yyyy HH:mm:ss */
  @IsString()
  @Length(1, 60)
  timeFormat: string = 'iso';

  /** A zone of the IANA database, or `site` */
  @IsString()
  @Length(1, 60)
  timeZone: string = 'site';

  @IsArray()
  @ArrayMaxSize(200)
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => ProfileColumnDto)
  columns: ProfileColumnDto[] = [];

  /** Cells that stand for no value */
  @IsArray()
  @ArrayMaxSize(20)
  @IsString({ each: true })
  @Length(0, 40, { each: true })
  missingValues: string[] = [];

  /** Words of the export and what they stand for: Filtration for 1 */
  @IsWords()
  words: Record<string, string> = {};

  @IsObject()
  @ValidateNested()
  @Type(() => ProfileSegmentationDto)
  segmentation: ProfileSegmentationDto = new ProfileSegmentationDto();

  @IsObject()
  @ValidateNested()
  @Type(() => ProfileGatesDto)
  gates: ProfileGatesDto = new ProfileGatesDto();
}

export class EditProfileDto {
  @IsName()
  name!: string;

  @IsObject()
  @ValidateNested()
  @Type(() => ProfileDefinitionDto)
  definition: ProfileDefinitionDto = new ProfileDefinitionDto();
}

export class CreateProfileDto extends EditProfileDto {
  @IsUUID()
  skidId!: string;

  @IsIn(PROFILE_KINDS)
  kind!: ProfileKind;
}

export class ProfileQuery extends PageQuery {
  @IsUUID()
  skidId!: string;
}

export class ProfileView extends View {
  readonly id!: string;
  readonly skidId!: string;
  readonly name!: string;
  readonly kind!: ProfileKind;
  readonly definition!: ProfileDefinitionDto;
  readonly version!: number;
}

export class ProfilePageView extends View {
  readonly items!: ProfileView[];
  readonly next!: string | null;
}
