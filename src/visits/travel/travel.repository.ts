import type { Reader } from '../../app/index.js';
import type { Prisma } from '../../generated/prisma/client.js';

export type RegionRow = Prisma.TravelRegionGetPayload<object>;
export type OverrideRow = Prisma.TravelOverrideGetPayload<object>;

/** The usual roads first. */
export const regionsOf = (reader: Reader): Promise<RegionRow[]> => reader.travelRegion.findMany({ orderBy: [{ isUsual: 'desc' }, { name: 'asc' }] });

export const overridesOf = (reader: Reader): Promise<OverrideRow[]> => reader.travelOverride.findMany({ orderBy: { id: 'asc' } });

/** Keeps regions and overrides from other edits until the end of the transaction: they are few, and must not contradict each other. */
export async function holdTravel(tx: Reader): Promise<void> {
  await tx.$queryRaw`SELECT 1 FROM travel_region WHERE is_usual FOR UPDATE`;
}

export type RegionColumns = Omit<RegionRow, 'id' | 'isUsual' | 'version'>;

export const writeRegion = (tx: Reader, id: string, columns: RegionColumns): Promise<RegionRow> =>
  tx.travelRegion.upsert({ where: { id }, create: { ...columns, id }, update: { ...columns, version: { increment: 1 } } });

export async function removeRegion(tx: Reader, id: string): Promise<void> {
  await tx.travelRegion.delete({ where: { id } });
}

export type OverrideColumns = Omit<OverrideRow, 'id' | 'version'>;

export const writeOverride = (tx: Reader, id: string, columns: OverrideColumns): Promise<OverrideRow> =>
  tx.travelOverride.upsert({ where: { id }, create: { ...columns, id }, update: { ...columns, version: { increment: 1 } } });

/** How many there were: one or none. */
export const removeOverride = async (tx: Reader, id: string): Promise<number> => (await tx.travelOverride.deleteMany({ where: { id } })).count;

export interface PlaceRow {
  readonly id: string;
  readonly name: string;
  readonly isSite: boolean;
  /** Null: not known */
  readonly latitude: number | null;
  readonly longitude: number | null;
}

/** Sites that have not ended, and people who can be sent, by id. */
export const placesOf = (reader: Reader, ids: readonly string[]): Promise<PlaceRow[]> =>
  reader.$queryRaw<PlaceRow[]>`
    SELECT id, name, true AS "isSite", latitude, longitude FROM site WHERE id = ANY(${[...ids]}::uuid[]) AND ended_on IS NULL
     UNION ALL SELECT p.id, p.name, false, l.latitude, l.longitude FROM person p LEFT JOIN person_planning l ON l.person_id = p.id
     WHERE p.id = ANY(${[...ids]}::uuid[]) AND p.role IN ('manager', 'technician') AND p.ended_at IS NULL`;

export interface TripRow {
  /** Who drove, from home unless from another site */
  readonly personId: string;
  readonly fromSiteId: string | null;
  readonly siteId: string;
  readonly minutes: number;
  readonly km: number | null;
}

/** Ways to sites as job sheets note them, since a moment: from the site where the same person was before on that day, else from home. */
export const recordedTrips = (reader: Reader, since: Date): Promise<TripRow[]> =>
  reader.$queryRaw<TripRow[]>`
    SELECT * FROM (
      SELECT r.by_id AS "personId", j.site_id AS "siteId",
             lag(j.site_id) OVER (PARTITION BY r.by_id, (r.started_at AT TIME ZONE site.time_zone)::date ORDER BY r.started_at, r.id) AS "fromSiteId",
             CASE WHEN jsonb_typeof(r.content -> 'travelMinutes') = 'number' THEN (r.content ->> 'travelMinutes')::float8 END AS minutes,
             CASE WHEN jsonb_typeof(r.content -> 'travelKm') = 'number' THEN (r.content ->> 'travelKm')::float8 END AS km
        FROM job_report r JOIN job j ON j.id = r.job_id JOIN site ON site.id = j.site_id
       WHERE r.state = 'counts' AND r.started_at >= ${since}) trip
     WHERE minutes > 0 AND "siteId" IS DISTINCT FROM "fromSiteId"`;
