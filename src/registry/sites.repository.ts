import type { Reader } from '../app/index.js';
import type { Prisma } from '../generated/prisma/client.js';
import { NamedRecords } from './named-records.repository.js';

const WITH_CLIENT = { client: { select: { name: true } } } as const satisfies Prisma.SiteInclude;
export type SiteRow = Prisma.SiteGetPayload<{ include: typeof WITH_CLIENT }>;

export const siteRecords = new NamedRecords<SiteRow>({
  what: 'site',
  table: (reader) => reader.site,
  orderBy: 'name',
  searched: ['name', 'note', 'accessHours'],
  include: WITH_CLIENT,
});

export async function openSkidsOf(reader: Reader, siteId: string): Promise<string[]> {
  const rows = await reader.skid.findMany({ where: { siteId, endedOn: null }, select: { id: true } });
  return rows.map((row) => row.id);
}

/** The site, when it has not ended. */
export const openSite = (reader: Reader, id: string) => reader.site.findFirst({ where: { id, endedOn: null }, select: { id: true, clientId: true } });

/** The client, when it has not ended. */
export const openClient = (reader: Reader, id: string) => reader.client.findFirst({ where: { id, endedOn: null }, select: { id: true } });
