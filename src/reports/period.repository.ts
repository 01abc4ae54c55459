import { Injectable } from '@nestjs/common';
import { type Caller, Database, type Reader } from '../app/index.js';
import { SKID_STANDING_SQL } from '../chemicals/index.js';
import { skidReason } from '../upkeep/core/skid-reason.js';
import { STANDING_RANK_SQL, STANDING_SQL } from '../upkeep/index.js';
import { BREAKDOWN_COLUMNS, CALIBRATION_COLUMNS, DAY, REPAIR_COLUMNS, TEST_COLUMNS } from './columns.repository.js';
import type { Period, PeriodSkid, SkidPeriod } from './core/period-data.js';

/** The skids $1 and the moments at which the days $2 to $3 begin and end at their sites. */
const OF = `WITH of AS (
  SELECT s.id, s.no, site.time_zone, ($2::date)::timestamp AT TIME ZONE site.time_zone AS from_at, ($3::date + 1)::timestamp AT TIME ZONE site.time_zone AS to_at
    FROM skid s JOIN site ON site.id = s.site_id WHERE s.id = ANY($1::uuid[]))`;
const DURING = (column: string): string => `${column} >= of.from_at AND ${column} < of.to_at`;
/** Tasks whose day lies further ahead than this say nothing about the coming months. */
const AHEAD_DAYS = 90;

type Part = Exclude<keyof SkidPeriod, 'skid' | 'trends'>;

/** One query for each part of the report, whatever the number of skids. Every row says its skid. */
const QUERIES: Readonly<Record<Part, string>> = {
  months: `${OF} SELECT of.id AS "skidId", to_char(d.day, 'YYYY-MM') AS month, sum(d.filtrate_m3) AS "filtrateM3", count(d.filtrate_m3)::int AS days, sum(d.filtration_hours) AS hours,
      sum(d.cycles)::int AS cycles, bool_or(d.filtrate_estimated) AS estimated
    FROM daily_condition d JOIN of ON of.no = d.skid_no WHERE d.day BETWEEN $2::date AND $3::date GROUP BY of.id, month ORDER BY month`,
  cleans: `${OF} SELECT of.id AS "skidId", c.at, ${DAY('c.at AT TIME ZONE of.time_zone')} AS day, c.kind, c.chemical, c.strength_mg_l AS "strengthMgL",
      c.contact_minutes AS "contactMinutes", c.note
    FROM clean c JOIN of ON of.id = c.skid_id WHERE ${DURING('c.at')} ORDER BY c.at, c.chemical`,
  fittings: `${OF} SELECT of.id AS "skidId", p.name AS "positionName", i.name AS "itemName", pt.serial_number AS "serialNumber", pt.lot, pt.set_count AS "setCount",
      CASE WHEN ${DURING('f.fitted_at')} THEN f.fitted_at END AS "fittedAt", f.fitted_by AS "fittedBy", CASE WHEN ${DURING('f.removed_at')} THEN f.removed_at END AS "removedAt",
      f.removed_by AS "removedBy", f.removal_reason AS "removalReason"
    FROM fitting f JOIN position p ON p.id = f.position_id JOIN of ON of.id = p.skid_id JOIN part pt ON pt.id = f.part_id JOIN item i ON i.id = pt.item_id
   WHERE (${DURING('f.fitted_at')}) OR (${DURING('f.removed_at')}) ORDER BY coalesce(f.removed_at, f.fitted_at), p.name, f.fitted_at`,
  work: `${OF} SELECT of.id AS "skidId", e.at, p.name AS "positionName", e.task, e.minutes, e.done_by AS by, e.note
    FROM service_entry e JOIN of ON of.id = e.skid_id LEFT JOIN position p ON p.id = e.position_id WHERE ${DURING('e.at')} ORDER BY e.at, e.id`,
  states: `${OF} SELECT of.id AS "skidId", c.at, c.state, c.by, c.note FROM service_state_change c JOIN of ON of.id = c.skid_id WHERE ${DURING('c.at')} ORDER BY c.at`,
  jobs: `${OF} SELECT of.id AS "skidId", j.no, j.kind, j.title, j.finished_at AS "finishedAt", j.finished_by AS "finishedBy"
    FROM job j JOIN of ON of.id = j.skid_id WHERE j.state = 'finished' AND ${DURING('j.finished_at')} ORDER BY j.finished_at`,
  breakdowns: `${OF} SELECT of.id AS "skidId", ${BREAKDOWN_COLUMNS}
    FROM breakdown b JOIN of ON of.id = b.skid_id JOIN job j ON j.id = b.job_id WHERE ${DURING('b.noticed_at')} ORDER BY b.noticed_at`,
  tanks: `${OF} SELECT of.id AS "skidId", t.name, t.chemical, t.shape, t.diameter_m AS "diameterM", t.length_m AS "lengthM", t.width_m AS "widthM", t.height_m AS "heightM", t.level_table AS "levelTable",
      t.capacity_l AS "capacityL", t.heel_l AS "heelL", ${DAY('k.run_out_on')} AS "runOutOn", k.reason AS "coverReason",
      coalesce((SELECT jsonb_agg(jsonb_build_object('at', d.at, 'volumeL', d.volume_l, 'strengthGL', d.strength_g_l, 'lot', d.lot) ORDER BY d.at)
                  FROM tank_delivery d WHERE d.tank_id = t.id AND ${DURING('d.at')}), '[]') AS deliveries,
      coalesce((SELECT jsonb_agg(jsonb_build_object('at', d.at, 'levelM', d.level_m) ORDER BY d.at) FROM tank_dip d WHERE d.tank_id = t.id AND ${DURING('d.at')}), '[]') AS dips
    FROM tank t JOIN of ON of.id = t.skid_id LEFT JOIN tank_cover k ON k.tank_id = t.id WHERE t.ended_on IS NULL OR t.ended_on >= $2::date ORDER BY t.name`,
  tests: `${OF} SELECT of.id AS "skidId", ${TEST_COLUMNS}
    FROM integrity_test t JOIN of ON of.id = t.skid_id WHERE ${DURING('t.at')} ORDER BY t.at`,
  repairs: `${OF} SELECT of.id AS "skidId", ${REPAIR_COLUMNS}
    FROM fibre_repair r JOIN of ON of.id = r.skid_id JOIN position p ON p.id = r.position_id WHERE ${DURING('r.at')} ORDER BY r.at`,
  calibrations: `${OF} SELECT of.id AS "skidId", ${CALIBRATION_COLUMNS}
    FROM calibration c JOIN of ON of.id = c.skid_id JOIN position p ON p.id = c.position_id WHERE ${DURING('c.at')} ORDER BY c.at, p.name`,
  doubts: `${OF} SELECT of.id AS "skidId", d.signal, d.from_at AS "fromAt", d.to_at AS "toAt", d.error, d.reason
    FROM doubtful_span d JOIN of ON of.id = d.skid_id WHERE coalesce(d.to_at, 'infinity') >= of.from_at AND coalesce(d.from_at, '-infinity') < of.to_at ORDER BY d.to_at`,
  dues: `${OF}, dated AS (
      SELECT of.id AS "skidId", d.*, p.name AS "positionName", ($4::timestamptz AT TIME ZONE of.time_zone)::date AS today
        FROM due d JOIN of ON of.no = d.skid_no LEFT JOIN position p ON p.id = d.position_id
    ), judged AS (SELECT dated.*, ${STANDING_SQL} AS standing FROM dated)
    SELECT "skidId", task, "positionName", standing, ${DAY('best_on')} AS "bestOn", ${DAY('latest_on')} AS "latestOn", reason
      FROM judged WHERE best_on IS NULL OR best_on <= today + ${AHEAD_DAYS} ORDER BY ${STANDING_RANK_SQL}, best_on NULLS LAST, task, "positionName"`,
};

const SKIDS = `WITH ${SKID_STANDING_SQL}
  SELECT s.id, s.no, s.name, s.kind, s.serial_number AS "serialNumber", s.water, s.rated_flow_m3h AS "ratedFlowM3h", ${DAY('s.commissioned_on')} AS "commissionedOn",
         s.service_state AS "serviceState", site.name AS "siteName", client.name AS "clientName", site.time_zone AS "timeZone",
         (SELECT a.area_m2 FROM skid_area a WHERE a.skid_id = s.id ORDER BY a.from_day DESC LIMIT 1) AS "areaM2", f.standing, f.silent, f.reason, f.task AS "nextTask", f."bestOn" AS "nextOn", f."lastReadingAt"
    FROM skid s JOIN site ON site.id = s.site_id JOIN client ON client.id = s.client_id LEFT JOIN fleet f ON f."skidId" = s.id
   WHERE ($2::uuid IS NULL OR s.id = $2) AND ($3::uuid IS NULL OR (s.client_id = $3 AND s.ended_on IS NULL AND s.service_state <> 'retired'))
   ORDER BY site.name, s.kind DESC, s.name`;

interface SkidRow extends Omit<PeriodSkid, 'reason'> {
  readonly silent: boolean | null;
  readonly reason: string | null;
  readonly lastReadingAt: Date | null;
}

export type RecordedParts = Pick<SkidPeriod, Part>;

/** What is on record of skids in a period: read as the caller, so that a client sees nothing but their own. */
@Injectable()
export class PeriodRepository {
  constructor(private readonly database: Database) {}

  async clientName(caller: Caller, clientId: string): Promise<string | undefined> {
    const client = await this.database.readFor(caller, (reader) => reader.client.findUnique({ where: { id: clientId }, select: { name: true } }));
    return client?.name;
  }

  async skids(caller: Caller, of: { readonly skidId: string } | { readonly clientId: string }, now: Date): Promise<PeriodSkid[]> {
    const [skidId, clientId] = 'skidId' in of ? [of.skidId, null] : [null, of.clientId];
    const rows = await this.database.readFor(caller, (reader) => reader.$queryRawUnsafe<SkidRow[]>(SKIDS, now, skidId, clientId));
    return rows.map(({ silent, reason, lastReadingAt, ...skid }) => ({
      ...skid,
      reason:
        skid.standing === null ? '' : skidReason({ standing: skid.standing, silent: silent === true, lastReadingAt, reason, serviceState: skid.serviceState }),
    }));
  }

  /** The parts of each skid, by its id. */
  parts(caller: Caller, skidIds: readonly string[], { from, to }: Period, now: Date): Promise<(skidId: string) => RecordedParts> {
    return this.database.readFor(caller, async (reader) => {
      const found = new Map<Part, Map<string, object[]>>();
      for (const [part, sql] of Object.entries(QUERIES) as [Part, string][]) {
        const values = part === 'dues' ? [skidIds, from, to, now] : [skidIds, from, to];
        found.set(part, bySkid(await rowsOf(reader, sql, values)));
      }
      return (skidId) => Object.fromEntries([...found].map(([part, skids]) => [part, skids.get(skidId) ?? []])) as unknown as RecordedParts;
    });
  }
}

type Row = { readonly skidId: string };

const rowsOf = (reader: Reader, sql: string, values: readonly unknown[]): Promise<Row[]> => reader.$queryRawUnsafe<Row[]>(sql, ...values);

function bySkid(rows: readonly Row[]): Map<string, object[]> {
  const skids = new Map<string, object[]>();
  for (const { skidId, ...row } of rows) {
    const known = skids.get(skidId) ?? [];
    known.push(row);
    skids.set(skidId, known);
  }
  return skids;
}
