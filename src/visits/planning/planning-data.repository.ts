import type { Reader } from '../../app/index.js';
import { Prisma, type SitePlanning } from '../../generated/prisma/client.js';

const PERSON = { id: true, name: true, planning: true } as const satisfies Prisma.PersonSelect;
export type PersonToRead = Prisma.PersonGetPayload<{ select: typeof PERSON }>;

const STAFF = { role: { in: ['manager', 'technician'] }, endedAt: null } as const satisfies Prisma.PersonWhereInput;

/** Those who can be sent. */
export const peopleToSend = (reader: Reader): Promise<PersonToRead[]> =>
  reader.person.findMany({ where: STAFF, select: PERSON, orderBy: [{ name: 'asc' }, { id: 'asc' }] });

/** Somebody who can be sent, kept from other edits until the end of the transaction. */
export async function lockPersonToSend(tx: Reader, id: string): Promise<PersonToRead | null> {
  await tx.$queryRaw`SELECT 1 FROM person WHERE id = ${id}::uuid FOR UPDATE`;
  return tx.person.findFirst({ where: { ...STAFF, id }, select: PERSON });
}

export type PersonColumns = Omit<Prisma.PersonPlanningUncheckedCreateInput, 'personId' | 'version'>;

export async function writePerson(tx: Reader, personId: string, columns: PersonColumns): Promise<void> {
  await tx.personPlanning.upsert({ where: { personId }, create: { ...columns, personId }, update: { ...columns, version: { increment: 1 } } });
}

const SITE = {
  id: true,
  name: true,
  timeZone: true,
  latitude: true,
  longitude: true,
  client: { select: { name: true } },
  planning: true,
} as const satisfies Prisma.SiteSelect;
export type SiteToRead = Prisma.SiteGetPayload<{ select: typeof SITE }>;

export const sitesToVisit = (reader: Reader): Promise<SiteToRead[]> =>
  reader.site.findMany({ where: { endedOn: null }, select: SITE, orderBy: [{ name: 'asc' }, { id: 'asc' }] });

export async function lockSiteToVisit(tx: Reader, id: string): Promise<SiteToRead | null> {
  await tx.$queryRaw`SELECT 1 FROM site WHERE id = ${id}::uuid FOR UPDATE`;
  return tx.site.findFirst({ where: { id, endedOn: null }, select: SITE });
}

export type SiteColumns = Omit<Prisma.SitePlanningUncheckedCreateInput, 'siteId' | 'version' | 'ferry'> & { readonly ferry: Prisma.InputJsonObject | null };

export async function writeSite(tx: Reader, siteId: string, { ferry, ...rest }: SiteColumns): Promise<void> {
  const columns = { ...rest, ferry: ferry ?? Prisma.DbNull };
  await tx.sitePlanning.upsert({ where: { siteId }, create: { ...columns, siteId }, update: { ...columns, version: { increment: 1 } } });
}

/** What planning knows of the site of a visit; null: there is no such visit. */
export const planningOfVisit = (reader: Reader, visitId: string): Promise<{ site: { planning: SitePlanning | null } } | null> =>
  reader.visit.findUnique({ where: { id: visitId }, select: { site: { select: { planning: true } } } });
