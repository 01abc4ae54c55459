import { IsOptional, IsUUID } from 'class-validator';
import { IsName, PageQuery, View } from '../app/index.js';

export class GatewayKeyDto {
  @IsUUID()
  siteId!: string;

  /** Which machine it is for, in words */
  @IsName()
  name!: string;
}

export class GatewayKeysQuery extends PageQuery {
  @IsOptional()
  @IsUUID()
  siteId?: string;
}

export class GatewayKeyView extends View {
  readonly id!: string;
  readonly siteId!: string;
  readonly siteName!: string;
  readonly name!: string;
  readonly createdAt!: Date;
  readonly createdBy!: string;
  /** To the minute; null: never used since uses are noted */
  readonly lastUsedAt!: Date | null;
  readonly endedAt!: Date | null;
  readonly endedBy!: string | null;
}

export class GatewayKeysPageView extends View {
  readonly items!: GatewayKeyView[];
  readonly next!: string | null;
}

export class NewGatewayKeyView extends View {
  readonly gatewayKey!: GatewayKeyView;
  /** Sent by the gateway as `Authorization: Bearer ...`; shown this once */
  readonly key!: string;
}
