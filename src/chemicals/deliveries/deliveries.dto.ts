import { IsBoolean, IsIn, IsNumber, IsUUID, Max, Min } from 'class-validator';
import { IsDay, IsName, IsText, MayBeLeftOut, View } from '../../app/index.js';
import { EventDto } from '../../intake/index.js';
import { LABEL_BASES, type LabelBasis } from '../core/stated-strength.js';

export class DeliveryDto extends EventDto {
  @IsNumber()
  volumeL!: number;

  /** What the label says: compared with what the tank holds */
  @MayBeLeftOut()
  @IsName(100)
  product?: string;

  /** Of the active substance, of hypochlorite as available chlorine; or state it as the label does */
  @MayBeLeftOut()
  @IsNumber()
  strengthGL?: number;

  /** As the label states it, with its basis */
  @MayBeLeftOut()
  @IsNumber()
  @Min(0.001)
  @Max(2_000)
  strengthValue?: number;

  @MayBeLeftOut()
  @IsIn(LABEL_BASES)
  strengthBasis?: LabelBasis;

  /** Needed for per cent by weight, unless it is tabulated */
  @MayBeLeftOut()
  @IsNumber()
  @Min(0.5)
  @Max(3)
  densityKgL?: number;

  /** Somebody read the label again: the strength is unusual, and so it is */
  @MayBeLeftOut()
  @IsBoolean()
  strengthConfirmed?: boolean;

  /** The batch */
  @MayBeLeftOut()
  @IsName(100)
  lot?: string;

  @MayBeLeftOut()
  @IsDay()
  expiresOn?: string;

  /** Where a day tank was filled from another tank of the site */
  @MayBeLeftOut()
  @IsUUID()
  fromTankId?: string;

  /** The delivery that was announced and is hereby confirmed */
  @MayBeLeftOut()
  @IsUUID()
  announcementId?: string;
}

export class AnnouncementDto {
  @IsNumber()
  @Min(0.001)
  @Max(1_000_000)
  volumeL!: number;

  @IsDay()
  expectedOn!: string;

  @IsText(500)
  note: string = '';
}

/** A delivery that a client sees to. */
export class AnnouncementView extends View {
  readonly id!: string;
  readonly tankId!: string;
  readonly volumeL!: number;
  readonly expectedOn!: string;
  readonly note!: string;
  readonly announcedAt!: Date;
  readonly announcedBy!: string;
  /** awaited, in the tank, called off */
  readonly state!: string;
  readonly version!: number;
}
