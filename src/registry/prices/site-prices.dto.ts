import { IsNumber, IsOptional, Matches, Max, Min } from 'class-validator';
import { View } from '../../app/index.js';

const AMOUNT = /^\d{1,9}(\.\d{1,4})?$/;
const IsAmount = () => Matches(AMOUNT, { message: '$property must be an amount from 0 on as text, with 4 decimals at most, such as "0.25"' });

/** All in the reckoning currency; null: not known. */
export class SitePricesDto {
  /** What it costs more to come after a limit was met than at a time of our choice */
  @IsOptional()
  @IsAmount()
  unplanned?: string | null;

  /** A recovery clean (CIP): chemicals and work */
  @IsOptional()
  @IsAmount()
  recoveryClean?: string | null;

  /** A kilowatt-hour */
  @IsOptional()
  @IsAmount()
  energyKwh?: string | null;

  /** A cubic metre of filtrate that is not produced */
  @IsOptional()
  @IsAmount()
  waterM3?: string | null;

  /** Share of the production that is lost while a limit is passed: 1 where the skid stops, 0 where it runs on as before */
  @IsOptional()
  @IsNumber()
  @Min(0)
  @Max(1)
  lostShare?: number | null;
}

export class SitePricesView extends View {
  /** ISO 4217: what all of them are in */
  readonly currency!: string;
  readonly unplanned!: string | null;
  readonly recoveryClean!: string | null;
  readonly energyKwh!: string | null;
  readonly waterM3!: string | null;
  readonly lostShare!: number | null;
  /** 0: nobody has entered any */
  readonly version!: number;
}
