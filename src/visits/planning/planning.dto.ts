import { Type } from 'class-transformer';
import {
  ArrayMaxSize,
  ArrayMinSize,
  ArrayUnique,
  IsArray,
  IsBoolean,
  IsInt,
  IsLatitude,
  IsLongitude,
  IsNumber,
  IsOptional,
  Matches,
  Max,
  Min,
  ValidateNested,
} from 'class-validator';
import { IsDay, IsName, MayBeLeftOut, View } from '../../app/index.js';
import { type ContactView, type FerryView, SiteAccessDto } from './access/access.dto.js';

const IsTime = () => Matches(/^([01]\d|2[0-3]):[0-5]\d$/, { message: '$property must be a time of the day from 00:00 to 23:59, such as 08:30' });

export class SkillDto {
  /** As task sheets name it */
  @IsName()
  skill!: string;

  /** The last day on which it holds; left out: without end */
  @IsOptional()
  @IsDay()
  lastOn?: string | null;
}

export class DaysOffDto {
  @IsDay()
  from!: string;

  @IsDay()
  until!: string;

  @IsName()
  reason!: string;
}

export class OnCallDto {
  @IsDay()
  from!: string;

  @IsDay()
  until!: string;
}

export class PersonPlanningDto {
  @IsNumber()
  @IsLatitude()
  latitude!: number;

  @IsNumber()
  @IsLongitude()
  longitude!: number;

  /** 1 Monday to 7 Sunday */
  @IsArray()
  @ArrayMaxSize(7)
  @ArrayUnique()
  @IsInt({ each: true })
  @Min(1, { each: true })
  @Max(7, { each: true })
  workDays!: number[];

  @IsTime()
  shiftFrom!: string;

  /** From then on it is overtime */
  @IsTime()
  regularUntil!: string;

  @IsTime()
  shiftUntil!: string;

  /** Away from home in a row */
  @IsInt()
  @Min(0)
  @Max(30)
  mostNights!: number;

  @IsArray()
  @ArrayMaxSize(100)
  @ValidateNested({ each: true })
  @Type(() => SkillDto)
  skills!: SkillDto[];

  @IsArray()
  @ArrayMaxSize(200)
  @ValidateNested({ each: true })
  @Type(() => DaysOffDto)
  daysOff!: DaysOffDto[];

  /** Least hours between coming home, or to where the night is spent, and leaving on the next day; left out: none is asked for */
  @IsOptional()
  @IsNumber()
  @Min(0)
  @Max(24)
  restHours?: number | null;

  /** At most, Monday to Sunday; left out: as much as the shifts have */
  @IsOptional()
  @IsNumber()
  @Min(0)
  @Max(60)
  overtimeHoursAWeek?: number | null;

  /** Of the break within a day, with its two times; left out: none is planned */
  @IsOptional()
  @IsInt()
  @Min(5)
  @Max(180)
  breakMinutes?: number | null;

  /** Not begun before ... */
  @IsOptional()
  @IsTime()
  breakFrom?: string | null;

  /** ... and over by then */
  @IsOptional()
  @IsTime()
  breakUntil?: string | null;

  /** Days on call: urgent work is theirs before others', and no night is spent away */
  @MayBeLeftOut()
  @IsArray()
  @ArrayMaxSize(200)
  @ValidateNested({ each: true })
  @Type(() => OnCallDto)
  onCall?: OnCallDto[];
}

export class AccessWindowDto {
  /** 1 Monday to 7 Sunday */
  @IsArray()
  @ArrayMinSize(1)
  @ArrayMaxSize(7)
  @ArrayUnique()
  @IsInt({ each: true })
  @Min(1, { each: true })
  @Max(7, { each: true })
  days!: number[];

  @IsTime()
  from!: string;

  @IsTime()
  until!: string;
}

export class SitePlanningDto extends SiteAccessDto {
  /** None: people are let in at any time */
  @IsArray()
  @ArrayMaxSize(20)
  @ValidateNested({ each: true })
  @Type(() => AccessWindowDto)
  windows!: AccessWindowDto[];

  /** Of a visit, on top of the work: gate, briefing, way to the skid */
  @IsInt()
  @Min(0)
  @Max(480)
  extraMinutes!: number;

  @IsBoolean()
  mayWorkAlone!: boolean;
}

export class SkillView extends View {
  readonly skill!: string;
  readonly lastOn!: string | null;
}

export class DaysOffView extends View {
  readonly from!: string;
  readonly until!: string;
  readonly reason!: string;
}

export class OnCallView extends View {
  readonly from!: string;
  readonly until!: string;
}

export class PersonPlanningView extends View {
  readonly personId!: string;
  readonly name!: string;
  /** Null: nothing is known of the person yet, and no work is planned for them */
  readonly latitude!: number | null;
  readonly longitude!: number | null;
  readonly workDays!: number[];
  readonly shiftFrom!: string | null;
  readonly regularUntil!: string | null;
  readonly shiftUntil!: string | null;
  readonly mostNights!: number;
  readonly skills!: SkillView[];
  readonly daysOff!: DaysOffView[];
  readonly restHours!: number | null;
  readonly overtimeHoursAWeek!: number | null;
  /** All three, or none */
  readonly breakMinutes!: number | null;
  readonly breakFrom!: string | null;
  readonly breakUntil!: string | null;
  readonly onCall!: OnCallView[];
  /** 0: nothing was entered yet */
  readonly version!: number;
}

export class AccessWindowView extends View {
  readonly days!: number[];
  readonly from!: string;
  readonly until!: string;
}

export class SitePlanningView extends View {
  readonly siteId!: string;
  readonly name!: string;
  readonly clientName!: string;
  readonly timeZone!: string;
  /** Null: no work can be planned there; it is entered with the site */
  readonly latitude!: number | null;
  readonly longitude!: number | null;
  readonly windows!: AccessWindowView[];
  readonly extraMinutes!: number;
  readonly mayWorkAlone!: boolean;
  readonly noticeDays!: number;
  readonly inductions!: string[];
  /** Null: none */
  readonly ferry!: FerryView | null;
  /** None: all year */
  readonly openMonths!: number[];
  readonly escort!: boolean;
  readonly accessNote!: string;
  readonly contacts!: ContactView[];
  /** 0: nothing was entered yet */
  readonly version!: number;
}
