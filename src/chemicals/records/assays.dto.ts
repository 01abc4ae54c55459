import { IsIn, IsNumber, Max, Min } from 'class-validator';
import { IsMoment, IsName, IsText, MayBeLeftOut, View } from '../../app/index.js';
import { LABEL_BASES, type LabelBasis } from '../core/stated-strength.js';

export class AssayDto {
  @IsMoment()
  at!: string;

  @IsNumber()
  @Min(0.001)
  @Max(2_000)
  value!: number;

  @IsIn(LABEL_BASES)
  basis!: LabelBasis;

  /** Needed for per cent by weight, unless it is tabulated */
  @MayBeLeftOut()
  @IsNumber()
  @Min(0.5)
  @Max(3)
  densityKgL?: number;

  /** Titration, test kit, laboratory */
  @IsText(100)
  method: string = '';

  /** Who took it, where it was somebody else than the caller */
  @MayBeLeftOut()
  @IsName(200)
  by?: string;

  @IsText(500)
  note: string = '';
}

/** A strength measured in a sample of a tank. */
export class AssayView extends View {
  readonly id!: string;
  readonly at!: Date;
  readonly strengthGL!: number;
  readonly value!: number;
  readonly basis!: string;
  readonly densityKgL!: number | null;
  readonly method!: string;
  readonly by!: string;
  readonly note!: string;
}

export class AssaysPageView extends View {
  readonly items!: AssayView[];
  readonly next!: string | null;
}
