import { IsOptional, IsUUID } from 'class-validator';
import { PageQuery, View } from '../app/index.js';
import type { Standing } from '../shared/standing.js';

export class TankCoverQuery extends PageQuery {
  @IsOptional()
  @IsUUID()
  skidId?: string;

  @IsOptional()
  @IsUUID()
  clientId?: string;
}

/** How long a tank lasts, and why. */
export class TankCoverView extends View {
  readonly tankId!: string;
  readonly tankName!: string;
  readonly chemical!: string;
  readonly skidId!: string;
  readonly skidName!: string;
  readonly siteName!: string;
  readonly clientName!: string;
  readonly timeZone!: string;
  readonly standing!: Standing;
  readonly capacityL!: number;
  readonly heelL!: number;
  readonly lastDipAt!: Date | null;
  /** Usable, today, after what was used since the dip */
  readonly volumeL!: number | null;
  readonly strengthGL!: number | null;
  readonly dailyUseL!: number | null;
  /** Days of cover: 1 in 10 shorter, as likely as not, 1 in 10 longer */
  readonly earlyDays!: number | null;
  readonly likelyDays!: number | null;
  readonly lateDays!: number | null;
  readonly runOutOn!: string | null;
  readonly expectedUseL!: number | null;
  readonly observedUseL!: number | null;
  readonly reason!: string;
  readonly cautions!: string[];
}

export class TankCoverPageView extends View {
  readonly items!: TankCoverView[];
  readonly next!: string | null;
  readonly total!: number;
}
