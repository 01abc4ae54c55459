import { OmitType, PartialType } from '@nestjs/swagger';
import { IsLatitude, IsLongitude, IsNumber, IsOptional, IsUUID } from 'class-validator';
import { IsName, IsText, MayBeLeftOut, View } from '../app/index.js';
import { IsZone } from './is-zone.js';
import { RegistryQuery } from './registry.dto.js';

export class SiteDto {
  @IsUUID()
  clientId!: string;

  @IsName()
  name!: string;

  /** IANA time zone, such as Europe/Madrid: days at the site are counted in it */
  @IsZone()
  timeZone!: string;

  @IsOptional()
  @IsNumber()
  @IsLatitude()
  latitude?: number | null;

  @IsOptional()
  @IsNumber()
  @IsLongitude()
  longitude?: number | null;

  /** When somebody can get in, in words */
  @MayBeLeftOut()
  @IsText(500)
  accessHours?: string;

  /** The client reads it too */
  @MayBeLeftOut()
  @IsText()
  note?: string;
}

export class SiteEditDto extends PartialType(OmitType(SiteDto, ['clientId']), { skipNullProperties: false }) {}

export class SitesQuery extends RegistryQuery {
  @IsOptional()
  @IsUUID()
  clientId?: string;
}

export class SiteView extends View {
  readonly id!: string;
  readonly clientId!: string;
  readonly clientName!: string;
  readonly name!: string;
  readonly timeZone!: string;
  readonly latitude!: number | null;
  readonly longitude!: number | null;
  readonly accessHours!: string;
  readonly note!: string;
  readonly endedOn!: string | null;
  readonly version!: number;
}

export class SitesPageView extends View {
  readonly items!: SiteView[];
  readonly next!: string | null;
}
