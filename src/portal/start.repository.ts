import { Injectable } from '@nestjs/common';
import { type Caller, Database, type Reader } from '../app/index.js';
import { SKID_STANDING_SQL } from '../chemicals/index.js';
import type { ServiceState } from '../shared/service-states.js';
import type { Standing } from '../shared/standing.js';
import type { JobKind, JobState, Severity, VisitState } from '../shared/work.js';
import { STANDING_RANK_SQL } from '../upkeep/index.js';

/** Whole days that the water is counted over: today at the site is not over yet. */
const WATER_DAYS = 30;
/** Of those at a site that are not over; the list of requests has them all. */
const REQUESTS_SHOWN = 5;

export interface StartSite {
  readonly id: string;
  readonly name: string;
  readonly timeZone: string;
}

export interface StartSkid {
  readonly siteId: string;
  readonly skidId: string;
  readonly name: string;
  readonly kind: 'skid' | 'shared';
  readonly serviceState: ServiceState;
  readonly standing: Standing;
  readonly task: string | null;
  readonly bestOn: string | null;
  readonly silent: boolean;
  readonly lastReadingAt: Date | null;
  readonly breakdown: Severity | null;
  readonly waterFrom: string;
  readonly waterTo: string;
  readonly m3: number | null;
  readonly days: number;
  readonly estimatedDays: number;
  readonly byHandDays: number;
}

export interface StartVisit {
  readonly siteId: string;
  readonly id: string;
  readonly onDay: string;
  readonly startTime: string;
  readonly state: VisitState;
  readonly noteToClient: string;
  readonly people: readonly string[];
  readonly work: readonly { readonly skidName: string; readonly title: string }[];
}

export interface StartRequest {
  readonly siteId: string;
  readonly jobId: string;
  readonly no: number;
  readonly kind: JobKind;
  readonly title: string;
  readonly skidName: string;
  readonly state: JobState;
  readonly stateNote: string;
  readonly visitOn: string | null;
  readonly createdAt: Date;
  readonly createdBy: string;
  /** Of the site, not over */
  readonly total: number;
}

const SKIDS = `
  WITH ${SKID_STANDING_SQL}
  SELECT s.site_id AS "siteId", f."skidId", f.name, f.kind, f."serviceState", f.standing, f.task, f."bestOn", f.silent, f."lastReadingAt", worst.severity AS breakdown,
         to_char(span.first, 'YYYY-MM-DD') AS "waterFrom", to_char(span.last, 'YYYY-MM-DD') AS "waterTo", water.*
    FROM fleet f JOIN skid s ON s.id = f."skidId"
    CROSS JOIN LATERAL (SELECT ($1::timestamptz AT TIME ZONE f."timeZone")::date - ${WATER_DAYS} AS first, ($1::timestamptz AT TIME ZONE f."timeZone")::date - 1 AS last) span
    CROSS JOIN LATERAL (
      SELECT sum(d.filtrate_m3) AS m3, count(*)::int AS days, (count(*) FILTER (WHERE d.filtrate_estimated))::int AS "estimatedDays",
             (count(*) FILTER (WHERE d.by_hand))::int AS "byHandDays"
        FROM daily_condition d WHERE d.skid_no = f.no AND d.day BETWEEN span.first AND span.last AND d.filtrate_m3 IS NOT NULL
    ) water
    LEFT JOIN LATERAL (
      SELECT b.severity FROM breakdown b JOIN job j ON j.id = b.job_id
       WHERE b.skid_id = s.id AND b.restored_at IS NULL AND j.state NOT IN ('finished', 'dropped')
       ORDER BY array_position(ARRAY['danger', 'no water', 'less water', 'can wait'], b.severity) LIMIT 1
    ) worst ON true
   ORDER BY ${STANDING_RANK_SQL}, f."bestOn" NULLS LAST, f.name, f."skidId"`;

const VISITS = `
  SELECT DISTINCT ON (v.site_id) v.site_id AS "siteId", v.id, to_char(v.on_day, 'YYYY-MM-DD') AS "onDay", v.start_time AS "startTime", v.state, v.note_to_client AS "noteToClient",
         coalesce((SELECT jsonb_agg(p.name ORDER BY p.name) FROM visit_person p WHERE p.visit_id = v.id), '[]') AS people,
         coalesce((SELECT jsonb_agg(jsonb_build_object('skidName', s.name, 'title', j.title) ORDER BY s.name, j.no) FROM job j JOIN skid s ON s.id = j.skid_id
                    WHERE j.visit_id = v.id), '[]') AS work
    FROM visit v JOIN site ON site.id = v.site_id
   WHERE v.state IN ('promised', 'under way') AND v.on_day >= ($1::timestamptz AT TIME ZONE site.time_zone)::date
   ORDER BY v.site_id, v.on_day, v.start_time, v.id`;

const REQUESTS = `
  SELECT * FROM (
    SELECT j.site_id AS "siteId", j.id AS "jobId", j.no, j.kind, j.title, s.name AS "skidName", j.state, j.state_note AS "stateNote",
           to_char(v.on_day, 'YYYY-MM-DD') AS "visitOn", j.created_at AS "createdAt", j.created_by AS "createdBy",
           (count(*) OVER (PARTITION BY j.site_id))::int AS total, row_number() OVER (PARTITION BY j.site_id ORDER BY j.created_at DESC, j.no DESC) AS place
      FROM job j JOIN skid s ON s.id = j.skid_id LEFT JOIN visit v ON v.id = j.visit_id
     WHERE j.kind IN ('request', 'breakdown') AND j.state NOT IN ('finished', 'dropped')
  ) open WHERE place <= ${REQUESTS_SHOWN} ORDER BY place`;

/** What the start page of a client shows, each kind in one statement for all sites. The statements name no client: the database shows the caller their own rows. */
@Injectable()
export class StartRepository {
  constructor(private readonly database: Database) {}

  read(caller: Caller, now: Date) {
    return this.database.readFor(caller, async (reader) => ({
      client: await reader.client.findFirst({ select: { id: true, name: true } }),
      sites: await sitesOf(reader),
      skids: await reader.$queryRawUnsafe<StartSkid[]>(SKIDS, now),
      visits: await reader.$queryRawUnsafe<StartVisit[]>(VISITS, now),
      requests: await reader.$queryRawUnsafe<StartRequest[]>(REQUESTS),
    }));
  }
}

const sitesOf = (reader: Reader): Promise<StartSite[]> =>
  reader.site.findMany({ where: { endedOn: null }, select: { id: true, name: true, timeZone: true }, orderBy: [{ name: 'asc' }, { id: 'asc' }] });
