import { PartialType } from '@nestjs/swagger';
import { Transform } from 'class-transformer';
import { IsBoolean, IsEmail, IsIn, IsOptional, IsUUID } from 'class-validator';
import { IsName, MayBeLeftOut, PageQuery, View } from '../app/index.js';
import { emailAsStored } from './session.dto.js';

const PERSON_ROLES = ['manager', 'storekeeper', 'technician', 'client'] as const;
export type PersonRole = (typeof PERSON_ROLES)[number];

export class PersonDto {
  @IsName()
  name!: string;

  @Transform(emailAsStored)
  @IsEmail()
  email!: string;

  @IsIn(PERSON_ROLES)
  role!: PersonRole;

  /** Whose rows a client's person sees; nobody else has one */
  @IsOptional()
  @IsUUID()
  clientId?: string | null;

  /** Of a client's operator: the only site that they may enter readings for */
  @IsOptional()
  @IsUUID()
  siteId?: string | null;

  /** Whether a client's person may enter readings */
  @MayBeLeftOut()
  @IsBoolean()
  mayEnterReadings?: boolean;
}

export class PersonEditDto extends PartialType(PersonDto, { skipNullProperties: false }) {}

export class PeopleQuery extends PageQuery {
  @IsOptional()
  @IsIn(PERSON_ROLES)
  role?: PersonRole;

  @IsOptional()
  @IsUUID()
  clientId?: string;

  /** Only those who have ended, instead of only those who have not */
  @IsOptional()
  @IsIn(['true', 'false'])
  ended?: 'true' | 'false';
}

export class PersonView extends View {
  readonly id!: string;
  readonly name!: string;
  readonly email!: string;
  readonly role!: PersonRole;
  readonly clientId!: string | null;
  readonly clientName!: string | null;
  readonly siteId!: string | null;
  readonly siteName!: string | null;
  readonly mayEnterReadings!: boolean;
  /** Whether they have set a password yet */
  readonly hasPassword!: boolean;
  /** Until when the link that they have not used is good; a moment in the past: it is not any more. Null: there is none */
  readonly invitedUntil!: Date | null;
  readonly endedAt!: Date | null;
  readonly version!: number;
}

export class PeoplePageView extends View {
  readonly items!: PersonView[];
  readonly next!: string | null;
}

/** A name to choose from. */
export class StaffMemberView extends View {
  readonly id!: string;
  readonly name!: string;
  readonly role!: Exclude<PersonRole, 'client'>;
}

/** Shown once: whoever has the link may set the password. */
export class InvitationView extends View {
  readonly person!: PersonView;
  /** Address of the page, without the host */
  readonly path!: string;
  readonly expiresAt!: Date;
}
