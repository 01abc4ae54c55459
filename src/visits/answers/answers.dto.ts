import { ArrayMaxSize, ArrayUnique, IsArray } from 'class-validator';
import { IsDay, IsName, IsText, MayBeLeftOut, View } from '../../app/index.js';

export class ProposalDto {
  /** For the client to read */
  @MayBeLeftOut()
  @IsText()
  note?: string;
}

export class DeclineDto {
  @IsName(1000)
  reason!: string;

  /** Days that would suit, the best first */
  @IsArray()
  @ArrayMaxSize(10)
  @ArrayUnique()
  @IsDay({ each: true })
  wishedDays: string[] = [];
}

export class ProposalWorkView extends View {
  readonly skidName!: string;
  readonly title!: string;
}

/** A day and time of a visit as it was proposed to the client, and what the client answered. It is no promise, and the answer makes it none. */
export class ProposalView extends View {
  readonly id!: string;
  readonly visitId!: string;
  readonly clientName!: string;
  readonly siteId!: string;
  readonly siteName!: string;
  readonly onDay!: string;
  readonly startTime!: string;
  readonly minutes!: number;
  readonly note!: string;
  readonly work!: ProposalWorkView[];
  readonly proposedAt!: Date;
  readonly proposedBy!: string;
  /** Null: none yet */
  readonly answer!: 'confirmed' | 'declined' | null;
  readonly reason!: string;
  readonly wishedDays!: string[];
  readonly answeredAt!: Date | null;
  readonly answeredBy!: string | null;
  /** Since then it is no longer asked: the visit was shifted, promised or called off, or proposed anew */
  readonly closedAt!: Date | null;
}
