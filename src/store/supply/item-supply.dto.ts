import { Type } from 'class-transformer';
import { ArrayMaxSize, IsArray, IsIn, IsInt, IsObject, IsOptional, IsUUID, Matches, Max, Min, ValidateNested } from 'class-validator';
import { IsText, MayBeLeftOut, View } from '../../app/index.js';
import { IsDecimal, IsQuantity } from './is-decimal.js';

export const CRITICALITIES = ['stops the skid', 'hampers the skid', 'can wait'] as const;
export type Criticality = (typeof CRITICALITIES)[number];
/** UCUM, of what one unit of use holds */
const CONTENT_UNITS = ['L', 'mL', 'm3', 'kg', 'g', 't', 'm', 'cm', 'mm', 'm2'] as const;
const PACKING_GROUPS = ['I', 'II', 'III'] as const;
const SIGNAL_WORDS = ['', 'Danger', 'Warning'] as const;

export class AlternativeDto {
  @IsUUID()
  itemId!: string;

  /** Where it differs */
  @IsText(500)
  note: string = '';
}

export class HazardDto {
  /** Per cent by mass */
  @IsDecimal({ decimals: 4, most: 100 })
  fromPercent!: string;

  /** Itself not within; left out: up to the pure substance */
  @IsOptional()
  @IsDecimal({ decimals: 4, most: 100, aboveZero: true })
  belowPercent?: string | null;

  /** Left out: no dangerous good */
  @IsOptional()
  @Matches(/^\d{4}$/, { message: 'unNumber must have four digits, such as 1791' })
  unNumber?: string | null;

  @IsOptional()
  @IsIn(PACKING_GROUPS)
  packingGroup?: (typeof PACKING_GROUPS)[number] | null;

  @IsIn(SIGNAL_WORDS)
  signalWord: (typeof SIGNAL_WORDS)[number] = '';

  /** GHS hazard statements, such as H314 or EUH031 */
  @IsArray()
  @ArrayMaxSize(30)
  @Matches(/^(H[2-4]\d{2}[A-Za-z]{0,2}|EUH\d{3}[A-Z]?|AUH\d{3})$/, {
    each: true,
    message: 'each of statements must be a hazard statement, such as H314 or EUH031',
  })
  statements!: string[];
}

export class ItemSupplyDto {
  /** What it means for a skid when there is none */
  @IsIn(CRITICALITIES)
  criticality!: Criticality;

  /** After receipt, until it must be used or preserved anew; left out: for as long as one likes */
  @IsOptional()
  @IsInt()
  @Min(1)
  @Max(36_500)
  shelfLifeDays?: number | null;

  /** How often its stock is looked at; 0: at every move */
  @MayBeLeftOut()
  @IsInt()
  @Min(0)
  @Max(366)
  reviewDays?: number;

  /** What is bought in its stead from now on */
  @IsOptional()
  @IsUUID()
  supersededById?: string | null;

  /** Of a chemical: per cent of the active substance by mass, by which its label goes */
  @IsOptional()
  @IsDecimal({ decimals: 4, most: 100 })
  strengthPercent?: string | null;

  /** What one unit of use holds, where that is a piece or a package */
  @IsOptional()
  @IsQuantity()
  contentAmount?: string | null;

  /** UCUM */
  @IsOptional()
  @IsIn(CONTENT_UNITS)
  contentUnit?: (typeof CONTENT_UNITS)[number] | null;

  /** What may be used in its stead */
  @IsArray()
  @ArrayMaxSize(20)
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => AlternativeDto)
  alternatives: AlternativeDto[] = [];

  /** By ranges of concentration, which do not overlap */
  @IsArray()
  @ArrayMaxSize(20)
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => HazardDto)
  hazards: HazardDto[] = [];
}

export class RelatedItemView extends View {
  readonly itemId!: string;
  readonly code!: string;
  readonly name!: string;
  readonly note!: string;
}

export class HazardView extends View {
  readonly fromPercent!: string;
  readonly belowPercent!: string | null;
  readonly unNumber!: string | null;
  readonly packingGroup!: string | null;
  readonly signalWord!: string;
  readonly statements!: string[];
}

export class ItemSupplyView extends View {
  readonly itemId!: string;
  readonly code!: string;
  readonly name!: string;
  readonly unit!: string;
  readonly criticality!: Criticality;
  readonly shelfLifeDays!: number | null;
  readonly reviewDays!: number;
  readonly supersededBy!: RelatedItemView | null;
  readonly strengthPercent!: string | null;
  readonly contentAmount!: string | null;
  readonly contentUnit!: string | null;
  readonly alternatives!: RelatedItemView[];
  readonly hazards!: HazardView[];
  /** At the item’s own strength; null: none is on record for it */
  readonly hazardNow!: HazardView | null;
  /** What labels of this substance usually say, where nothing is on record: to look at, not to rely on */
  readonly usualHazards!: HazardView[];
  /** What it must not meet in a tank, a van bay or a sequence without a rinse */
  readonly mustNotMeet!: string[];
  /** 0: nothing was entered yet */
  readonly version!: number;
}
