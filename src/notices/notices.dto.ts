import { IsBoolean, IsIn, IsInt, IsOptional, Max, Min } from 'class-validator';
import { PageQuery, View } from '../app/index.js';
import { IsZone } from '../registry/index.js';

export const DIGESTS = ['off', 'daily', 'weekly'] as const;
export const MAIL_STATES = ['waiting', 'sent', 'given up'] as const;

export class NoticeChoiceDto {
  /** How often a digest comes; a weekly one comes on Mondays */
  @IsIn(DIGESTS)
  digest!: (typeof DIGESTS)[number];

  /** From which hour of the person's own day */
  @IsInt()
  @Min(0)
  @Max(23)
  hour!: number;

  @IsZone()
  timeZone!: string;

  /** Whether what cannot wait is told at once; of managers and technicians */
  @IsBoolean()
  atOnce!: boolean;
}

export class NoticeChoiceView extends View {
  readonly digest!: (typeof DIGESTS)[number];
  readonly hour!: number;
  readonly timeZone!: string;
  readonly atOnce!: boolean;
  /** Whether the role is one that can be told at once */
  readonly mayBeToldAtOnce!: boolean;
  /** Whether the person has chosen; else this is what is usual for the role */
  readonly chosen!: boolean;
  /** Where it goes to */
  readonly email!: string;
  /** Whether a mail server is set up: without one nothing is mailed */
  readonly mailIsSetUp!: boolean;
}

export class NoticesQuery extends PageQuery {
  @IsOptional()
  @IsIn(MAIL_STATES)
  state?: (typeof MAIL_STATES)[number];
}

export class NoticeView extends View {
  readonly id!: string;
  readonly to!: string;
  /** at once, digest, trial, order */
  readonly kind!: string;
  readonly subject!: string;
  readonly state!: (typeof MAIL_STATES)[number];
  readonly createdAt!: Date;
  readonly sentAt!: Date | null;
  readonly tries!: number;
  /** Of one that waits */
  readonly nextTryAt!: Date | null;
  /** What the mail server, or the way to it, said last; why it was given up */
  readonly lastError!: string;
}

export class NoticesPageView extends View {
  readonly items!: NoticeView[];
  readonly next!: string | null;
  /** How many messages wait to be sent */
  readonly waiting!: number;
  /** Whom messages come from; null: no mail server is set up */
  readonly mailFrom!: string | null;
  /** Who is told at once of what cannot wait; nobody, when it is empty */
  readonly toldAtOnce!: string[];
}
