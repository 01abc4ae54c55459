import { ArrayMaxSize, ArrayUnique, IsArray, IsBoolean, IsInt, IsNumber, IsUUID, Max, Min } from 'class-validator';
import { IsName, IsText, MayBeLeftOut, View } from '../../app/index.js';
import type { TravelSource } from '../core/travel/travel-table.js';

export class TravelQuery {
  /** A site, or a person whose home is known */
  @IsUUID()
  from!: string;

  @IsUUID()
  to!: string;
}

/** A way as planning reckons with it, without the extra minutes of a site. */
export class TravelView extends View {
  readonly fromName!: string;
  readonly toName!: string;
  readonly minutes!: number;
  readonly km!: number;
  readonly source!: TravelSource;
  /** Why the road table does not say it, where one is set up */
  readonly said!: string | null;
}

export class TravelRegionDto {
  @IsName()
  name!: string;

  /** Each site is of one region at most */
  @IsArray()
  @ArrayMaxSize(2000)
  @ArrayUnique()
  @IsUUID(undefined, { each: true })
  siteIds!: string[];

  /** How much longer roads are than the straight line */
  @IsNumber()
  @Min(1)
  @Max(5)
  factor!: number;

  /** On the first 10 km of a way */
  @IsNumber()
  @Min(1)
  @Max(200)
  nearKmh!: number;

  /** On the rest of it */
  @IsNumber()
  @Min(1)
  @Max(200)
  farKmh!: number;
}

export class TravelRegionView extends View {
  readonly id!: string;
  readonly name!: string;
  /** Holds for every site that is of no other region; it is never deleted */
  readonly isUsual!: boolean;
  readonly siteIds!: string[];
  readonly factor!: number;
  readonly nearKmh!: number;
  readonly farKmh!: number;
  readonly version!: number;
}

export class TravelOverrideDto {
  /** A site, or a person: their home */
  @IsUUID()
  fromId!: string;

  @IsUUID()
  toId!: string;

  /** Whether it holds for the way back, too */
  @IsBoolean()
  bothWays!: boolean;

  @IsInt()
  @Min(1)
  @Max(2880)
  minutes!: number;

  @IsNumber()
  @Min(0)
  @Max(20_000)
  km!: number;

  /** Why, such as a ferry */
  @MayBeLeftOut()
  @IsText()
  note?: string;
}

export class TravelOverrideView extends View {
  readonly id!: string;
  readonly fromId!: string;
  /** Null: neither a site nor a person any more */
  readonly fromName!: string | null;
  readonly toId!: string;
  readonly toName!: string | null;
  readonly bothWays!: boolean;
  readonly minutes!: number;
  readonly km!: number;
  readonly note!: string;
  /** Who set it as it is; null: it was set before that was kept */
  readonly setBy!: string | null;
  readonly setAt!: Date | null;
  readonly version!: number;
}

/** The service that knows roads, as this process has met it. */
export class TravelServiceView extends View {
  /** Else every way that is not set by hand is estimated by distance */
  readonly isSetUp!: boolean;
  /** Null: it was not asked yet since the process began */
  readonly askedAt!: Date | null;
  readonly answeredAt!: Date | null;
  /** What was wrong when it was asked last; null: nothing */
  readonly said!: string | null;
}

/** What trips on job sheets ask of the roads of a region. Null: too few trips to say. */
export class TravelFitView extends View {
  readonly regionId!: string;
  readonly regionName!: string;
  readonly trips!: number;
  readonly tripsWithKm!: number | null;
  /** Median of the minutes driven over those estimated now */
  readonly ratio!: number | null;
  readonly factor!: number | null;
  readonly nearKmh!: number | null;
  readonly farKmh!: number | null;
  /** How far estimates of these trips were off, the median: by the present roads, and by roads fitted to other trips */
  readonly offMinutesNow!: number | null;
  readonly offMinutesThen!: number | null;
  readonly summary!: string;
}
