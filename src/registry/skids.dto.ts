import { PartialType } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import { ArrayMaxSize, IsArray, IsIn, IsOptional, IsUUID, Max, Min, ValidateNested } from 'class-validator';
import { IsDay, IsMoment, IsName, IsText, MayBeLeftOut, View } from '../app/index.js';
import { SERVICE_STATES, type ServiceState } from '../shared/service-states.js';
import { RegistryQuery } from './registry.dto.js';

const KINDS = ['skid', 'shared'] as const;
const FLOW_SCHEMES = ['dead-end', 'cross-flow', 'submerged'] as const;
const TMP_FROM = ['pressures', 'measured'] as const;
type Kind = (typeof KINDS)[number];
type FlowScheme = (typeof FLOW_SCHEMES)[number];
type TmpFrom = (typeof TMP_FROM)[number];

/** The active membrane area from a day on. */
export class SkidAreaDto {
  @IsDay()
  fromDay!: string;

  @Min(0.001)
  @Max(1_000_000)
  areaM2!: number;
}

/** Which entry of which skid, in the address. */
export class AreaDayDto {
  @IsUUID()
  id!: string;

  @IsDay()
  fromDay!: string;
}

/** What can be edited of a skid. */
export class SkidFieldsDto {
  @IsUUID()
  siteId!: string;

  @IsName()
  name!: string;

  @IsOptional()
  @IsName()
  serialNumber?: string | null;

  /** The feed water in words */
  @MayBeLeftOut()
  @IsText(200)
  water?: string;

  @IsOptional()
  @Min(0.001)
  @Max(10_000)
  ratedFlowM3h?: number | null;

  @IsOptional()
  @IsIn(FLOW_SCHEMES)
  flowScheme?: FlowScheme | null;

  /** Whether the transmembrane pressure is computed from the pressures or measured as such */
  @IsOptional()
  @IsIn(TMP_FROM)
  tmpFrom?: TmpFrom | null;

  /** Heights of the pressure transmitters above one level; of a tank without one: of its water surface */
  @MayBeLeftOut()
  @Min(-50)
  @Max(50)
  feedHeightM?: number;

  @MayBeLeftOut()
  @Min(-50)
  @Max(50)
  filtrateHeightM?: number;

  @MayBeLeftOut()
  @Min(-50)
  @Max(50)
  concentrateHeightM?: number;

  @IsOptional()
  @IsDay()
  commissionedOn?: string | null;

  /** Permeability when new, at referenceC, in L/(m2 h bar); unknown: assumed from the record */
  @IsOptional()
  @Min(0.001)
  @Max(10_000)
  baselineLmhBar?: number | null;

  @MayBeLeftOut()
  @Min(0)
  @Max(60)
  referenceC?: number;

  /** A recovery clean is due when the permeability is this fraction of the baseline */
  @MayBeLeftOut()
  @Min(0.05)
  @Max(0.99)
  permeabilityLimitFraction?: number;

  /** Pressure drop at which the cartridges are to be changed, at cartridgeReferenceFlowM3h */
  @IsOptional()
  @Min(0.001)
  @Max(1_000)
  cartridgeLimitKpa?: number | null;

  @IsOptional()
  @Min(0.001)
  @Max(10_000)
  cartridgeReferenceFlowM3h?: number | null;

  /** The client reads it too */
  @MayBeLeftOut()
  @IsText()
  note?: string;
}

export class SkidDto extends SkidFieldsDto {
  /** A filtration unit, or equipment that several of them share */
  @MayBeLeftOut()
  @IsIn(KINDS)
  kind?: Kind;

  @MayBeLeftOut()
  @IsIn(SERVICE_STATES)
  serviceState?: ServiceState;

  @MayBeLeftOut()
  @IsArray()
  @ArrayMaxSize(100)
  @ValidateNested({ each: true })
  @Type(() => SkidAreaDto)
  areas?: SkidAreaDto[];

  /** Of shared equipment: the skids that it serves */
  @MayBeLeftOut()
  @IsArray()
  @ArrayMaxSize(100)
  @IsUUID(undefined, { each: true })
  serves?: string[];
}

export class SkidEditDto extends PartialType(SkidFieldsDto, { skipNullProperties: false }) {}

export class SkidsQuery extends RegistryQuery {
  @IsOptional()
  @IsUUID()
  clientId?: string;

  @IsOptional()
  @IsUUID()
  siteId?: string;

  @IsOptional()
  @IsIn(KINDS)
  kind?: Kind;
}

export class ServesDto {
  @IsArray()
  @ArrayMaxSize(100)
  @IsUUID(undefined, { each: true })
  skidIds!: string[];
}

export class ServiceStateDto {
  @IsIn(SERVICE_STATES)
  state!: ServiceState;

  /** Why */
  @MayBeLeftOut()
  @IsText(500)
  note?: string;

  /** Since when; now, where it is left out */
  @MayBeLeftOut()
  @IsMoment()
  at?: string;
}

export class ServiceStateView extends View {
  readonly state!: ServiceState;
  readonly at!: Date;
  readonly by!: string;
  readonly note!: string;
}

export class SkidAreaView extends View {
  readonly fromDay!: string;
  readonly areaM2!: number;
}

export class SkidView extends View {
  readonly id!: string;
  readonly clientId!: string;
  readonly clientName!: string;
  readonly siteId!: string;
  readonly siteName!: string;
  readonly timeZone!: string;
  readonly kind!: Kind;
  readonly name!: string;
  readonly serialNumber!: string | null;
  readonly water!: string;
  readonly ratedFlowM3h!: number | null;
  readonly flowScheme!: FlowScheme | null;
  readonly tmpFrom!: TmpFrom | null;
  readonly feedHeightM!: number;
  readonly filtrateHeightM!: number;
  readonly concentrateHeightM!: number;
  readonly commissionedOn!: string | null;
  readonly baselineLmhBar!: number | null;
  readonly referenceC!: number;
  readonly permeabilityLimitFraction!: number;
  readonly cartridgeLimitKpa!: number | null;
  readonly cartridgeReferenceFlowM3h!: number | null;
  readonly serviceState!: ServiceState;
  readonly note!: string;
  readonly areas!: SkidAreaView[];
  readonly serves!: string[];
  readonly servedBy!: string[];
  readonly endedOn!: string | null;
  readonly version!: number;
}

export class SkidsPageView extends View {
  readonly items!: SkidView[];
  readonly next!: string | null;
}
