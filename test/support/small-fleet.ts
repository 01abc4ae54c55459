import { randomUUID } from 'node:crypto';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Database } from '../../src/app/index.js';
import { hashOfToken } from '../../src/people/tokens.js';
import { Api } from './api.js';

/** A person with a running session, without the walk through invitation and password. */
export async function signInAs(
  app: NestFastifyApplication,
  role: string,
  about: { clientId?: string; siteId?: string; mayEnterReadings?: boolean } = {},
): Promise<Api> {
  const { prisma } = app.get(Database);
  const token = randomUUID();
  const person = { name: `A ${role}`, email: `${token}@example.org`, role, ...about };
  await prisma.person.create({ data: { ...person, sessions: { create: { tokenHash: hashOfToken(token), expiresAt: new Date('2100-01-01') } } } });
  return new Api(Api.of(app).address, `skidkeep_session=${token}`);
}

export interface SmallSkid {
  readonly id: string;
  readonly no: number;
  readonly clientId: string;
  readonly siteId: string;
}

/** A client with a site and so many skids, all in service. */
export async function makeSkids(app: NestFastifyApplication, name: string, count: number, timeZone = 'Europe/Madrid'): Promise<SmallSkid[]> {
  const { prisma } = app.get(Database);
  const client = await prisma.client.create({ data: { name } });
  const site = await prisma.site.create({ data: { clientId: client.id, name: `${name} site`, timeZone } });
  const skids = Array.from({ length: count }, (_, index) => ({
    clientId: client.id,
    siteId: site.id,
    name: `${name} ${index + 1}`,
    flowScheme: 'dead-end',
    tmpFrom: 'pressures',
    ratedFlowM3h: 40,
    cartridgeLimitKpa: 150,
    cartridgeReferenceFlowM3h: 40,
  }));
  await prisma.skid.createMany({ data: skids });
  const made = await prisma.skid.findMany({ where: { siteId: site.id }, orderBy: { no: 'asc' }, select: { id: true, no: true, clientId: true, siteId: true } });
  await prisma.skidArea.createMany({ data: made.map(({ id }) => ({ skidId: id, fromDay: new Date('2020-01-01'), areaM2: 600 })) });
  return made;
}
