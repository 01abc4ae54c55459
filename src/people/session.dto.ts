import { Transform, type TransformFnParams } from 'class-transformer';
import { IsEmail, IsString, Length } from 'class-validator';
import { IsName, MayBeLeftOut, type Role, View } from '../app/index.js';

/** Addresses are compared without regard to case. */
export const emailAsStored = ({ value }: TransformFnParams): unknown => (typeof value === 'string' ? value.trim().toLowerCase() : value);

export class SignInDto {
  @Transform(emailAsStored)
  @IsString()
  @Length(1, 254)
  email!: string;

  @IsString()
  @Length(1, 200)
  password!: string;
}

export class InvitationAnswerDto {
  /** Instead of the name that the invitation gave */
  @MayBeLeftOut()
  @IsName()
  name?: string;

  /** 12 to 200 characters of any kind */
  @IsString()
  @Length(12, 200)
  password!: string;
}

export class OpenInvitationView extends View {
  /** As the invitation calls them; they may change it */
  readonly name!: string;
  readonly expiresAt!: Date;
}

export class FirstManagerDto {
  /** From the link that the service prints when it starts with nobody in it */
  @IsString()
  @Length(1, 100)
  token!: string;

  @IsName()
  name!: string;

  @Transform(emailAsStored)
  @IsEmail()
  email!: string;

  /** 12 to 200 characters of any kind */
  @IsString()
  @Length(12, 200)
  password!: string;
}

/** The person who is signed in. */
export class SessionView extends View {
  readonly id!: string;
  readonly name!: string;
  readonly email!: string;
  readonly role!: Exclude<Role, 'gateway'>;
  readonly clientId!: string | null;
  readonly clientName!: string | null;
  readonly siteId!: string | null;
  readonly mayEnterReadings!: boolean;
  /** Whether the database holds demo data */
  readonly demo!: boolean;
}
