import { Type } from 'class-transformer';
import { ArrayMaxSize, ArrayMinSize, IsArray, IsIn, IsNumber, IsObject, IsString, Length, Max, Min, ValidateNested } from 'class-validator';
import { IsName, MayBeLeftOut, View } from '../../app/index.js';
import { BAFFLING, type Baffling } from '../core/contact/contact-time.js';
import { BATCH_CHEMICALS, type BatchChemical } from '../core/makeup/batch.js';
import { CHLORINE_REAGENTS, type ChlorineReagent } from '../core/makeup/neutralise.js';
import { LABEL_BASES, type LabelBasis } from '../core/stated-strength.js';
import { WAYS_TOGETHER, type WayTogether } from '../core/together.js';

export class DoseDto {
  @IsName(80)
  chemical!: string;

  @IsNumber()
  @Min(0.001)
  @Max(10_000)
  doseMgL!: number;

  @IsNumber()
  @Min(0.001)
  @Max(100_000)
  flowM3h!: number;

  @IsNumber()
  @Min(0.001)
  @Max(2_000)
  productValue!: number;

  @IsIn(LABEL_BASES)
  productBasis!: LabelBasis;

  @MayBeLeftOut()
  @IsNumber()
  @Min(0.5)
  @Max(3)
  densityKgL?: number;

  /** Of hypochlorite: days since it came */
  @MayBeLeftOut()
  @IsNumber()
  @Min(0)
  @Max(730)
  ageDays?: number;

  @MayBeLeftOut()
  @IsNumber()
  @Min(-10)
  @Max(55)
  storageC?: number;

  /** What the pump gives at full stroke and speed */
  @MayBeLeftOut()
  @IsNumber()
  @Min(0.001)
  @Max(100_000)
  pumpLh?: number;
}

export class DoseView extends View {
  readonly strengthGL!: number;
  readonly litresPerHour!: number;
  readonly mlPerMinute!: number;
  readonly litresPerDay!: number;
  /** Above 100 the pump is too small */
  readonly strokePercent!: number | null;
  readonly cautions!: string[];
}

export class BatchDto {
  @IsIn(BATCH_CHEMICALS)
  chemical!: BatchChemical;

  @IsNumber()
  @Min(0.001)
  @Max(1_000)
  volumeM3!: number;

  /** Chlorine, of hypochlorite */
  @MayBeLeftOut()
  @IsNumber()
  @Min(0.1)
  @Max(20_000)
  targetMgL?: number;

  /** Of caustic and hydrochloric acid */
  @MayBeLeftOut()
  @IsNumber()
  @Min(0.5)
  @Max(13.5)
  targetPh?: number;

  /** Weight by volume, of citric acid */
  @MayBeLeftOut()
  @IsNumber()
  @Min(0.01)
  @Max(20)
  targetPercent?: number;

  /** Strength of the product; left out for dry citric acid */
  @MayBeLeftOut()
  @IsNumber()
  @Min(0.001)
  @Max(2_000)
  productValue?: number;

  @IsIn(LABEL_BASES)
  productBasis: LabelBasis = 'g/L';

  @MayBeLeftOut()
  @IsNumber()
  @Min(0.5)
  @Max(3)
  densityKgL?: number;

  /** What takes the chlorine away afterwards */
  @IsIn(CHLORINE_REAGENTS)
  reagent: ChlorineReagent = 'sodium bisulfite';
}

export class NeutraliserView extends View {
  readonly name!: string;
  /** Pure */
  readonly kg!: number;
}

export class BatchView extends View {
  readonly pureKg!: number;
  readonly productL!: number | null;
  readonly monohydrateKg!: number | null;
  readonly productGL!: number | null;
  readonly neutralise!: NeutraliserView[];
  /** Real water is buffered and takes more */
  readonly isLowerBound!: boolean;
  readonly cautions!: string[];
}

const BAFFLINGS = Object.keys(BAFFLING) as Baffling[];

export class SegmentDto {
  @IsNumber()
  @Min(0.001)
  @Max(1_000_000)
  volumeM3!: number;

  @IsNumber()
  @Min(0.001)
  @Max(100_000)
  flowM3h!: number;

  @IsIn(BAFFLINGS)
  baffling!: Baffling;

  @IsNumber()
  @Min(0)
  @Max(20)
  chlorineMgL!: number;

  @IsNumber()
  @Min(-5)
  @Max(60)
  temperatureC!: number;

  @IsNumber()
  @Min(0)
  @Max(14)
  ph!: number;
}

export class ContactTimeDto {
  @IsArray()
  @ArrayMinSize(1)
  @ArrayMaxSize(20)
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => SegmentDto)
  segments!: SegmentDto[];
}

export class SegmentView extends View {
  readonly t10Minutes!: number;
  readonly ct!: number;
  /** For 3 log of Giardia and 4 log of viruses; null where the tables end */
  readonly giardia3LogCt!: number | null;
  readonly virus4LogCt!: number | null;
  /** Why nothing could be read */
  readonly outside!: string | null;
}

export class ContactTimeView extends View {
  readonly segments!: SegmentView[];
  /** Null where a segment is outside the tables */
  readonly giardiaLog!: number | null;
  readonly virusLog!: number;
  readonly source!: string;
}

export class TogetherDto {
  @IsIn(WAYS_TOGETHER)
  way!: WayTogether;

  /** Names or formulas, in order; a rinse stands as "rinse" */
  @IsArray()
  @ArrayMinSize(2)
  @ArrayMaxSize(30)
  @IsString({ each: true })
  @Length(1, 100, { each: true })
  chemicals!: string[];
}

export class MeetingView extends View {
  readonly one!: string;
  readonly other!: string;
  readonly happens!: string;
}

export class TogetherView extends View {
  /** Nothing known speaks against it, which is no promise */
  readonly allowed!: boolean;
  readonly meetings!: MeetingView[];
}
