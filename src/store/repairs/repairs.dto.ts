import { Transform } from 'class-transformer';
import { IsBoolean, IsIn, IsOptional, IsUUID } from 'class-validator';
import { IsDay, IsMoment, IsName, IsText, MayBeLeftOut, PageQuery, View } from '../../app/index.js';

/** `repaired`: its counters go on. `overhauled`: they begin anew. `scrapped`: it does not come back. */
export const OUTCOMES = ['repaired', 'overhauled', 'not repaired', 'scrapped'] as const;
export type Outcome = (typeof OUTCOMES)[number];

export class SendForRepairDto {
  /** Made by the caller, and the id of the repair: sent again, the part goes out once */
  @IsUUID()
  id!: string;

  /** One piece under a serial number */
  @IsUUID()
  partId!: string;

  /** Where it lies */
  @IsUUID()
  fromPlaceId!: string;

  /** A place of kind repair */
  @IsUUID()
  repairPlaceId!: string;

  /** When it left */
  @IsMoment()
  at!: string;

  @IsOptional()
  @IsDay()
  expectedOn?: string | null;

  /** What is wrong with it */
  @IsName(500)
  fault!: string;
}

export class RepairBackDto {
  /** Made by the caller: sent again, it comes back once */
  @IsUUID()
  id!: string;

  @IsMoment()
  at!: string;

  @IsIn(OUTCOMES)
  outcome!: Outcome;

  /** Where it lies from now on; of what was scrapped there: left out */
  @IsOptional()
  @IsUUID()
  placeId?: string | null;

  /** What was done; of what was not repaired or was scrapped: why */
  @MayBeLeftOut()
  @IsText(500)
  done?: string;
}

export class RepairsQuery extends PageQuery {
  /** true: still out */
  @IsOptional()
  @Transform(({ value }) => (value === 'true' ? true : value === 'false' ? false : value))
  @IsBoolean()
  open?: boolean;

  @IsOptional()
  @IsUUID()
  itemId?: string;

  @IsOptional()
  @IsUUID()
  partId?: string;
}

export class CounterView extends View {
  /** days, run hours, starts, strokes, cycles */
  readonly kind!: string;
  /** Since it was new, or since its last overhaul */
  readonly run!: number;
}

export class RepairView extends View {
  readonly id!: string;
  readonly itemId!: string;
  readonly itemCode!: string;
  readonly itemName!: string;
  readonly partId!: string;
  readonly serialNumber!: string;
  readonly fromPlaceId!: string;
  readonly fromPlaceName!: string;
  readonly repairPlaceId!: string;
  readonly repairPlaceName!: string;
  readonly sentAt!: Date;
  readonly sentBy!: string;
  readonly expectedOn!: string | null;
  /** It is still out after the day on which it was expected */
  readonly late!: boolean;
  readonly fault!: string;
  /** What it had run when it left */
  readonly counters!: CounterView[];
  readonly backAt!: Date | null;
  readonly backBy!: string | null;
  readonly outcome!: Outcome | null;
  readonly done!: string;
}

export class RepairsPageView extends View {
  readonly items!: RepairView[];
  readonly next!: string | null;
}
