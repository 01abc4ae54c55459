import { Type } from 'class-transformer';
import {
  ArrayMaxSize,
  ArrayMinSize,
  ArrayUnique,
  IsArray,
  IsBoolean,
  IsEmail,
  IsInt,
  IsOptional,
  Matches,
  Max,
  MaxLength,
  Min,
  ValidateNested,
} from 'class-validator';
import { IsName, IsText, MayBeLeftOut, View } from '../../../app/index.js';

const TIME = /^([01]\d|2[0-3]):[0-5]\d$/;
const AreTimes = () => Matches(TIME, { each: true, message: 'each of $property must be a time of the day from 00:00 to 23:59, such as 08:30' });

const AreNames = () => Matches(/^\P{Cc}{1,120}$/u, { each: true, message: 'each of $property must be text of 1 to 120 characters in one line' });

export class FerryDto {
  /** Departures to the site, as HH:MM */
  @IsArray()
  @ArrayMinSize(1)
  @ArrayMaxSize(48)
  @ArrayUnique()
  @AreTimes()
  out!: string[];

  /** Departures from the site */
  @IsArray()
  @ArrayMinSize(1)
  @ArrayMaxSize(48)
  @ArrayUnique()
  @AreTimes()
  back!: string[];

  /** Of the crossing */
  @IsInt()
  @Min(0)
  @Max(720)
  minutes!: number;
}

/** With a telephone number or an e-mail address, or both */
export class ContactDto {
  @IsName()
  name!: string;

  /** Such as "shift leader" */
  @MayBeLeftOut()
  @IsText(120)
  role?: string;

  @MayBeLeftOut()
  @IsText(60)
  phone?: string;

  @IsOptional()
  @IsEmail()
  @MaxLength(254)
  email?: string | null;
}

/** How people get in, and whom to call. What is left out does not bound anybody */
export class SiteAccessDto {
  /** Days between asking the site and coming there; urgent work may come sooner, and plans say so */
  @MayBeLeftOut()
  @IsInt()
  @Min(0)
  @Max(90)
  noticeDays?: number;

  /** What everybody who enters must hold, in the words in which it stands with the skills of people */
  @MayBeLeftOut()
  @IsArray()
  @ArrayMaxSize(20)
  @ArrayUnique()
  @AreNames()
  inductions?: string[];

  /** Plans put work between its first arrival and its last departure back */
  @IsOptional()
  @ValidateNested()
  @Type(() => FerryDto)
  ferry?: FerryDto | null;

  /** 1 January to 12 December, in which the road is open; none: all year */
  @MayBeLeftOut()
  @IsArray()
  @ArrayMaxSize(12)
  @ArrayUnique()
  @IsInt({ each: true })
  @Min(1, { each: true })
  @Max(12, { each: true })
  openMonths?: number[];

  /** Nobody goes about the site without one */
  @MayBeLeftOut()
  @IsBoolean()
  escort?: boolean;

  /** What else to know, such as which gate */
  @MayBeLeftOut()
  @IsText(500)
  accessNote?: string;

  @MayBeLeftOut()
  @IsArray()
  @ArrayMaxSize(20)
  @ValidateNested({ each: true })
  @Type(() => ContactDto)
  contacts?: ContactDto[];
}

export class FerryView extends View {
  readonly out!: string[];
  readonly back!: string[];
  readonly minutes!: number;
}

export class ContactView extends View {
  readonly name!: string;
  readonly role!: string;
  readonly phone!: string;
  readonly email!: string | null;
}

/** How to get into the site of a visit, and whom to call there. */
export class WayInView extends View {
  /** In sentences */
  readonly access!: string[];
  readonly contacts!: ContactView[];
}
