import { IsIn, IsOptional, IsUUID } from 'class-validator';
import { PageQuery, View } from '../app/index.js';
import type { Standing } from '../shared/standing.js';
import { AnnouncementView } from './deliveries/deliveries.dto.js';

export class TankCoverQuery extends PageQuery {
  @IsOptional()
  @IsUUID()
  tankId?: string;

  @IsOptional()
  @IsUUID()
  skidId?: string;

  @IsOptional()
  @IsUUID()
  clientId?: string;

  @IsOptional()
  @IsUUID()
  siteId?: string;

  @IsOptional()
  @IsIn(['us', 'client'])
  suppliedBy?: 'us' | 'client';
}

/** What a client who fills a tank must see to. */
export class ReminderView extends View {
  readonly litres!: number;
  readonly byDay!: string;
  readonly words!: string;
}

/** How long a tank lasts, and why. */
export class TankCoverView extends View {
  readonly tankId!: string;
  readonly tankName!: string;
  readonly chemical!: string;
  readonly skidId!: string;
  readonly skidName!: string;
  readonly siteId!: string;
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
  /** us, client */
  readonly suppliedBy!: string;
  /** Set for a day tank: the tank from which it is filled */
  readonly fedFrom!: string | null;
  readonly fedFromId!: string | null;
  readonly shape!: string;
  readonly heightM!: number;
  readonly usualGL!: number | null;
  /** When what is in it is too weak or too old */
  readonly expiresOn!: string | null;
  /** in balance, more, less, dips do not fit, too little data */
  readonly balanceState!: string;
  readonly balanceWords!: string;
  /** Above 0 more goes than the set points ask for */
  readonly driftLDay!: number | null;
  /** Of a tank that the client fills */
  readonly reminder!: ReminderView | null;
  readonly awaited!: AnnouncementView | null;
  readonly reason!: string;
  readonly cautions!: string[];
}

export class TankCoverPageView extends View {
  readonly items!: TankCoverView[];
  readonly next!: string | null;
  readonly total!: number;
}

/** A dip, with what the books say of the time since the one before it. */
export class BookPointView extends View {
  readonly at!: Date;
  readonly volumeL!: number;
  readonly observedL!: number | null;
  readonly expectedL!: number | null;
  /** Observed less expected since the books began */
  readonly cumulativeL!: number;
  /** Two standard errors of that, by reading and set points */
  readonly limitL!: number;
  /** Cumulative sums in standard errors: a signal above 5 */
  readonly high!: number;
  readonly low!: number;
  /** Moving average of the surprises, and its limit */
  readonly average!: number;
  readonly averageLimit!: number;
  readonly signal!: 'more' | 'less' | null;
  readonly fits!: boolean;
}

export class ConsumerView extends View {
  readonly name!: string;
  /** On an average day, by its set points */
  readonly litresPerDay!: number;
}

export class DeliveredView extends View {
  readonly at!: Date;
  readonly volumeL!: number;
  readonly strengthGL!: number | null;
  readonly product!: string | null;
  readonly lot!: string | null;
  readonly expiresOn!: string | null;
  readonly by!: string;
}

/** The books of a tank. */
export class TankBooksView extends View {
  readonly state!: string;
  readonly words!: string;
  readonly driftLDay!: number | null;
  readonly strengthGL!: number | null;
  readonly points!: BookPointView[];
  readonly consumers!: ConsumerView[];
  /** The latest first */
  readonly deliveries!: DeliveredView[];
}
