import { PartialType } from '@nestjs/swagger';
import { IsIn, IsOptional, IsUUID } from 'class-validator';
import { IsName, IsText, MayBeLeftOut, View } from '../app/index.js';
import { RegistryQuery } from '../registry/index.js';

/** What people make. `repair`: whoever repairs parts for us */
export const PLACE_KINDS = ['store', 'van', 'site', 'quarantine', 'repair'] as const;
/** Goods on the way lie at one place of their own, which comes with the first transfer. */
const ALL_KINDS = [...PLACE_KINDS, 'transit'] as const;
export type PlaceKind = (typeof ALL_KINDS)[number];

export class PlaceDto {
  @IsName()
  name!: string;

  @IsIn(PLACE_KINDS)
  kind!: (typeof PLACE_KINDS)[number];

  /** Of a place at a client’s site */
  @IsOptional()
  @IsUUID()
  siteId?: string | null;

  /** Of a van: whose it is */
  @IsOptional()
  @IsUUID()
  personId?: string | null;

  @MayBeLeftOut()
  @IsText()
  note?: string;
}

export class PlaceEditDto extends PartialType(PlaceDto, { skipNullProperties: false }) {}

export class PlacesQuery extends RegistryQuery {
  @IsOptional()
  @IsIn(ALL_KINDS)
  kind?: PlaceKind;

  @IsOptional()
  @IsUUID()
  personId?: string;

  @IsOptional()
  @IsUUID()
  siteId?: string;
}

/** Where stock lies. */
export class PlaceView extends View {
  readonly id!: string;
  readonly name!: string;
  readonly kind!: PlaceKind;
  readonly siteId!: string | null;
  readonly siteName!: string | null;
  readonly personId!: string | null;
  readonly personName!: string | null;
  readonly note!: string;
  readonly endedOn!: string | null;
  readonly version!: number;
}

export class PlaceCautionsView extends View {
  /** What lies there or is on its way there and must not meet, and what keeps it apart */
  readonly cautions!: string[];
}

export class PlacesPageView extends View {
  readonly items!: PlaceView[];
  readonly next!: string | null;
}
