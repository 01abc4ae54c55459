import { Injectable } from '@nestjs/common';
import { containing, Database, pageBy } from '../app/index.js';
import type { Prisma } from '../generated/prisma/client.js';
import type { GatewayKeysQuery } from './gateway-keys.dto.js';

const WITH_SITE = { site: { select: { name: true } } } as const satisfies Prisma.GatewayKeyInclude;
export type GatewayKeyRow = Prisma.GatewayKeyGetPayload<{ include: typeof WITH_SITE }>;

@Injectable()
export class GatewayKeysRepository {
  constructor(private readonly database: Database) {}

  list(query: GatewayKeysQuery): Promise<GatewayKeyRow[]> {
    const { behind, ...order } = pageBy('name', query);
    const { siteId } = query;
    const name = containing(query.find);
    const where = { AND: [behind, siteId === undefined ? {} : { siteId }, name === undefined ? {} : { name }] };
    return this.database.prisma.gatewayKey.findMany({ where, ...order, include: WITH_SITE });
  }

  isSite(siteId: string): Promise<boolean> {
    return this.database.prisma.site.count({ where: { id: siteId, endedOn: null } }).then((count) => count === 1);
  }

  create(key: { siteId: string; name: string; keyHash: string; createdBy: string; createdAt: Date }): Promise<GatewayKeyRow> {
    return this.database.prisma.gatewayKey.create({ data: key, include: WITH_SITE });
  }

  /** False: there is no such key. A key that has ended already keeps its moment. */
  async end(id: string, by: string, at: Date): Promise<boolean> {
    await this.database.prisma.gatewayKey.updateMany({ where: { id, endedAt: null }, data: { endedAt: at, endedBy: by } });
    return (await this.database.prisma.gatewayKey.count({ where: { id } })) === 1;
  }
}
