import { Injectable } from '@nestjs/common';
import { type Caller, Clock, faultIn, NotFound, type PageOf, toPageBy, viewOf } from '../app/index.js';
import { type GatewayKeyDto, type GatewayKeysQuery, GatewayKeyView, NewGatewayKeyView } from './gateway-keys.dto.js';
import { type GatewayKeyRow, GatewayKeysRepository } from './gateway-keys.repository.js';
import { newToken } from './tokens.js';

/** Keys with which machines send the readings of one site, and nothing else. */
@Injectable()
export class GatewayKeys {
  constructor(
    private readonly repository: GatewayKeysRepository,
    private readonly clock: Clock,
  ) {}

  async list(query: GatewayKeysQuery): Promise<PageOf<GatewayKeyView>> {
    return toPageBy('name', await this.repository.list(query), query.limit, toView);
  }

  async create(caller: Caller, { siteId, name }: GatewayKeyDto): Promise<NewGatewayKeyView> {
    if (!(await this.repository.isSite(siteId))) {
      throw faultIn('siteId', 'there is no such site, or it has ended');
    }
    const { token, tokenHash } = newToken();
    const row = await this.repository.create({ siteId, name, keyHash: tokenHash, createdBy: caller.name, createdAt: this.clock.now() });
    return viewOf(NewGatewayKeyView, { gatewayKey: toView(row), key: token });
  }

  async end(caller: Caller, id: string): Promise<void> {
    if (!(await this.repository.end(id, caller.name, this.clock.now()))) throw new NotFound('gateway key', id);
  }
}

function toView({ id, siteId, site, name, createdAt, createdBy, lastUsedAt, endedAt, endedBy }: GatewayKeyRow): GatewayKeyView {
  return viewOf(GatewayKeyView, { id, siteId, siteName: site.name, name, createdAt, createdBy, lastUsedAt, endedAt, endedBy });
}
