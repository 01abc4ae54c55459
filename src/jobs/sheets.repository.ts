import type { Reader } from '../app/index.js';
import type { JobKind, JobState } from '../shared/work.js';

export interface SheetJobRow {
  readonly id: string;
  readonly no: number;
  readonly version: number;
  readonly kind: JobKind;
  readonly title: string;
  readonly request: string;
  readonly state: JobState;
  readonly skidId: string;
  readonly skidName: string;
  readonly siteName: string;
  readonly clientName: string;
  readonly timeZone: string;
}

export interface SheetTaskRow {
  readonly id: string;
  readonly jobId: string;
  readonly task: string;
  readonly kind: string;
  readonly positionId: string | null;
  readonly positionName: string | null;
  readonly sheetVersionId: string | null;
  readonly reason: string;
  readonly expectedMinutes: number | null;
}

export interface FittedRow {
  readonly positionId: string;
  readonly partId: string;
  readonly itemId: string;
  readonly code: string;
  readonly name: string;
  readonly serialNumber: string | null;
  readonly lot: string | null;
  readonly fittedAt: Date;
}

export interface LastValueRow {
  readonly skidId: string;
  readonly signal: string;
  readonly value: number;
  readonly at: Date;
}

const list = (ids: readonly string[]) => [...new Set(ids)];

export const sheetJobs = (reader: Reader, jobIds: readonly string[]): Promise<SheetJobRow[]> => reader.$queryRaw`
  SELECT j.id, j.no, j.version, j.kind, j.title, j.request, j.state, s.id AS "skidId", s.name AS "skidName", site.name AS "siteName", client.name AS "clientName",
         site.time_zone AS "timeZone"
    FROM job j JOIN skid s ON s.id = j.skid_id JOIN site ON site.id = j.site_id JOIN client ON client.id = j.client_id
   WHERE j.id = ANY(${list(jobIds)}::uuid[]) ORDER BY j.no`;

/** Tasks that are still to be done come with those that are done: a second visit sees both. */
export const sheetTasks = (reader: Reader, jobIds: readonly string[]): Promise<SheetTaskRow[]> => reader.$queryRaw`
  SELECT t.id, t.job_id AS "jobId", t.task, t.kind, t.position_id AS "positionId", p.name AS "positionName", t.sheet_version_id AS "sheetVersionId", t.reason,
         t.expected_minutes AS "expectedMinutes"
    FROM job_task t LEFT JOIN position p ON p.id = t.position_id WHERE t.job_id = ANY(${list(jobIds)}::uuid[]) AND t.outcome IS DISTINCT FROM 'done' ORDER BY t.job_id, t.place`;

export const sheetPositions = (reader: Reader, skidIds: readonly string[]): Promise<{ id: string; name: string; kind: string; skidId: string }[]> =>
  reader.$queryRaw`SELECT id, name, kind, skid_id AS "skidId" FROM position WHERE skid_id = ANY(${list(skidIds)}::uuid[]) AND ended_on IS NULL ORDER BY name`;

export const sheetMeters = (
  reader: Reader,
  skidIds: readonly string[],
): Promise<{ id: string; skidId: string; positionName: string; kind: string; value: number | null; at: Date | null }[]> => reader.$queryRaw`
  SELECT m.id, p.skid_id AS "skidId", p.name AS "positionName", m.kind, r.value, r.at
    FROM meter m JOIN position p ON p.id = m.position_id
    LEFT JOIN LATERAL (SELECT value, at FROM meter_reading WHERE meter_id = m.id ORDER BY at DESC LIMIT 1) r ON true
   WHERE p.skid_id = ANY(${list(skidIds)}::uuid[]) AND m.ended_on IS NULL AND p.ended_on IS NULL ORDER BY p.name, m.kind`;

export const fittedAt = (reader: Reader, positionIds: readonly string[]): Promise<FittedRow[]> => reader.$queryRaw`
  SELECT f.position_id AS "positionId", pt.id AS "partId", i.id AS "itemId", i.code, i.name, pt.serial_number AS "serialNumber", pt.lot, f.fitted_at AS "fittedAt"
    FROM fitting f JOIN part pt ON pt.id = f.part_id JOIN item i ON i.id = pt.item_id WHERE f.position_id = ANY(${list(positionIds)}::uuid[]) AND f.removed_at IS NULL`;

/** The latest value of each signal: of the last look at the gauges, or of the last cycle, whichever is later. In the stored unit of the signal. */
export const lastValues = (reader: Reader, skidIds: readonly string[]): Promise<LastValueRow[]> => reader.$queryRaw`
  SELECT DISTINCT ON (skid_id, signal) skid_id AS "skidId", signal, value, at FROM (
    SELECT s.id AS skid_id, v.signal, v.value, h.at
      FROM skid s CROSS JOIN LATERAL (SELECT id, at FROM hand_reading WHERE skid_id = s.id ORDER BY at DESC LIMIT 20) h JOIN hand_value v ON v.hand_reading_id = h.id
     WHERE s.id = ANY(${list(skidIds)}::uuid[])
    UNION ALL
    SELECT s.id, x.signal, x.value, c.ended_at
      FROM skid s CROSS JOIN LATERAL (SELECT * FROM cycle WHERE skid_no = s.no ORDER BY started_at DESC LIMIT 1) c
      CROSS JOIN LATERAL (VALUES ('feed_pressure', c.feed_kpa), ('filtrate_pressure', c.filtrate_kpa), ('concentrate_pressure', c.concentrate_kpa), ('tmp', c.tmp_kpa),
        ('filtrate_flow', c.flow_m3h), ('temperature', c.temperature_c), ('cartridge_dp', c.cartridge_dp_kpa), ('feed_turbidity', c.feed_turbidity_ntu)) AS x(signal, value)
     WHERE s.id = ANY(${list(skidIds)}::uuid[]) AND x.value IS NOT NULL
  ) known ORDER BY skid_id, signal, at DESC`;
