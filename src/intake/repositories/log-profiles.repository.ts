import { Injectable } from '@nestjs/common';
import { Database } from '../../app/index.js';
import type { LogProfile, Prisma } from '../../generated/prisma/client.js';
import type { LogProfileDefinition, ProfileKind } from '../core/log-profile.js';

export type ProfileRow = LogProfile;

const asJson = (definition: LogProfileDefinition): Prisma.InputJsonObject => JSON.parse(JSON.stringify(definition)) as Prisma.InputJsonObject;

@Injectable()
export class LogProfilesRepository {
  constructor(private readonly database: Database) {}

  list(skidId: string, afterId: string | undefined, take: number): Promise<ProfileRow[]> {
    return this.database.prisma.logProfile.findMany({
      where: { skidId, endedOn: null, ...(afterId === undefined ? {} : { id: { gt: afterId } }) },
      orderBy: { id: 'asc' },
      take,
    });
  }

  find(id: string): Promise<ProfileRow | null> {
    return this.database.prisma.logProfile.findUnique({ where: { id } });
  }

  create(profile: { skidId: string; name: string; kind: ProfileKind; definition: LogProfileDefinition }): Promise<ProfileRow> {
    return this.database.prisma.logProfile.create({ data: { ...profile, definition: asJson(profile.definition) } });
  }

  /** Null: somebody else has edited it since. */
  async edit(id: string, version: number, change: { name: string; definition: LogProfileDefinition }): Promise<ProfileRow | null> {
    const { count } = await this.database.prisma.logProfile.updateMany({
      where: { id, version },
      data: { name: change.name, definition: asJson(change.definition), version: { increment: 1 } },
    });
    return count === 0 ? null : this.find(id);
  }
}
