import { Injectable } from '@nestjs/common';
import { type Caller, Database } from '../app/index.js';
import { SKID_STANDING_SQL, TANK_SHORT_ON_SQL } from '../chemicals/index.js';
import type { Day } from '../shared/day.js';
import { STANDING_RANK_SQL, STANDING_SQL } from '../upkeep/index.js';
import type { BreakdownFact, DueFact, FinishedJobFact, ReportFact, ShortItemFact, SkidFact, TankFact, VisitFact } from './core/facts.js';

export interface VisitFilter {
  readonly from: Day;
  readonly to: Day;
  /** Only theirs */
  readonly personId?: string;
  readonly promisedOnly?: boolean;
}

/** What digests tell of. Each question is one query, whatever the size of the fleet. */
@Injectable()
export class DigestFactsRepository {
  constructor(private readonly database: Database) {}

  async dues(now: Date, most: number): Promise<{ overdue: number; due: number; dues: DueFact[] }> {
    const rows = await this.database.prisma.$queryRawUnsafe<(DueFact & { overdue: number; due: number })[]>(
      `WITH dated AS (SELECT d.*, s.name AS skid_name, site.name AS site_name, ($1::timestamptz AT TIME ZONE site.time_zone)::date AS today
                       FROM due d JOIN skid s ON s.no = d.skid_no JOIN site ON site.id = s.site_id WHERE s.ended_on IS NULL),
            judged AS (SELECT dated.*, ${STANDING_SQL} AS standing FROM dated)
       SELECT skid_name AS "skidName", site_name AS "siteName", task, standing, to_char(best_on, 'YYYY-MM-DD') AS "bestOn",
                        to_char(latest_on, 'YYYY-MM-DD') AS "latestOn", reason,
                        (count(*) FILTER (WHERE standing = 'overdue') OVER ())::int AS overdue, (count(*) FILTER (WHERE standing = 'due') OVER ())::int AS due
                   FROM judged WHERE standing IN ('overdue', 'due') ORDER BY ${STANDING_RANK_SQL}, best_on NULLS LAST, site_name, skid_name, task LIMIT $2::int`,
      now,
      most,
    );
    return { overdue: rows[0]?.overdue ?? 0, due: rows[0]?.due ?? 0, dues: rows };
  }

  breakdowns(): Promise<BreakdownFact[]> {
    return this.database.prisma.$queryRaw<BreakdownFact[]>`
      SELECT j.no, j.title, b.severity, s.name AS "skidName", site.name AS "siteName", client.name AS "clientName", site.time_zone AS "timeZone",
             b.noticed_at AS "noticedAt", b.taken_by AS "takenBy"
        FROM breakdown b JOIN job j ON j.id = b.job_id JOIN skid s ON s.id = j.skid_id JOIN site ON site.id = j.site_id JOIN client ON client.id = j.client_id
       WHERE j.state NOT IN ('finished', 'dropped')
       ORDER BY array_position(ARRAY['danger', 'no water', 'less water', 'can wait'], b.severity), b.noticed_at LIMIT 50`;
  }

  reports(): Promise<ReportFact[]> {
    return this.database.prisma.$queryRaw<ReportFact[]>`
      SELECT j.no AS "jobNo", j.title, s.name AS "skidName", r.by, r.state FROM job_report r JOIN job j ON j.id = r.job_id JOIN skid s ON s.id = j.skid_id
       WHERE r.state IN ('held', 'second') ORDER BY r.received_at LIMIT 50`;
  }

  /** Visits that were not called off, with their people and jobs, as the caller may see them. */
  visits(caller: Caller, { from, to, personId, promisedOnly = false }: VisitFilter): Promise<VisitFact[]> {
    return this.database.readFor(
      caller,
      (reader) => reader.$queryRaw<VisitFact[]>`
        SELECT v.no, to_char(v.on_day, 'YYYY-MM-DD') AS "onDay", v.start_time AS "startTime", v.minutes, v.state, site.name AS "siteName", client.name AS "clientName",
               v.note_to_client AS "noteToClient",
               (SELECT coalesce(jsonb_agg(p.name ORDER BY p.name), '[]') FROM visit_person p WHERE p.visit_id = v.id) AS people,
               (SELECT coalesce(jsonb_agg(jsonb_build_object('no', j.no, 'title', j.title, 'skidName', s.name) ORDER BY s.name, j.no), '[]')
                  FROM job j JOIN skid s ON s.id = j.skid_id WHERE j.visit_id = v.id) AS jobs
          FROM visit v JOIN site ON site.id = v.site_id JOIN client ON client.id = v.client_id
         WHERE v.on_day BETWEEN ${from}::date AND ${to}::date AND v.state IN ('planned', 'promised', 'under way') AND (NOT ${promisedOnly} OR v.state = 'promised')
           AND (${personId ?? null}::uuid IS NULL OR EXISTS (SELECT 1 FROM visit_person p WHERE p.visit_id = v.id AND p.person_id = ${personId ?? null}::uuid))
         ORDER BY v.on_day, v.start_time, v.no LIMIT 100`,
    );
  }

  tanks(until: Day): Promise<TankFact[]> {
    return this.database.prisma.$queryRawUnsafe<TankFact[]>(
      `SELECT t.name AS "tankName", t.chemical, s.name AS "skidName", site.name AS "siteName", to_char(${TANK_SHORT_ON_SQL}, 'YYYY-MM-DD') AS "shortOn"
         FROM tank_cover c JOIN tank t ON t.id = c.tank_id JOIN skid s ON s.id = t.skid_id JOIN site ON site.id = s.site_id
        WHERE t.ended_on IS NULL AND s.ended_on IS NULL AND ${TANK_SHORT_ON_SQL} <= $1::date ORDER BY ${TANK_SHORT_ON_SQL}, site.name, s.name, t.name LIMIT 50`,
      until,
    );
  }

  /** What the task sheets of visits until a day ask for and stores and vans do not hold; consumables of every visit are counted once for each. */
  shortItems(from: Day, until: Day): Promise<ShortItemFact[]> {
    return this.database.prisma.$queryRaw<ShortItemFact[]>`
      WITH asked AS (
        SELECT v.id AS visit_id, p.item_id, p.quantity, p.every_visit
          FROM visit v JOIN job j ON j.visit_id = v.id JOIN job_task t ON t.job_id = j.id JOIN task_sheet_part p ON p.version_id = t.sheet_version_id
         WHERE v.on_day BETWEEN ${from}::date AND ${until}::date AND v.state IN ('planned', 'promised', 'under way')
           AND j.state NOT IN ('finished', 'dropped') AND t.outcome IS NULL
      ), needed AS (
        SELECT item_id, sum(quantity) AS quantity FROM (
          SELECT item_id, quantity FROM asked WHERE NOT every_visit
          UNION ALL SELECT item_id, max(quantity) FROM asked WHERE every_visit GROUP BY visit_id, item_id) a GROUP BY item_id
      ), held AS (
        SELECT m.item_id, sum(CASE WHEN into_place.id IS NULL THEN 0 ELSE m.quantity END - CASE WHEN from_place.id IS NULL THEN 0 ELSE m.quantity END) AS quantity
          FROM stock_move m LEFT JOIN place into_place ON into_place.id = m.to_place_id AND into_place.kind IN ('store', 'van')
          LEFT JOIN place from_place ON from_place.id = m.from_place_id AND from_place.kind IN ('store', 'van')
         WHERE m.item_id IN (SELECT item_id FROM needed) GROUP BY m.item_id
      )
      SELECT i.code, i.name, i.unit, trim_scale(n.quantity)::text AS needed, trim_scale(coalesce(h.quantity, 0))::text AS "onHand"
        FROM needed n JOIN item i ON i.id = n.item_id LEFT JOIN held h ON h.item_id = n.item_id
       WHERE n.quantity > coalesce(h.quantity, 0) ORDER BY i.code LIMIT 100`;
  }

  finished(caller: Caller, since: Date): Promise<FinishedJobFact[]> {
    return this.database.readFor(
      caller,
      (reader) => reader.$queryRaw<FinishedJobFact[]>`
        SELECT j.no, j.title, s.name AS "skidName", to_char(j.finished_at AT TIME ZONE site.time_zone, 'YYYY-MM-DD') AS "finishedOn"
          FROM job j JOIN skid s ON s.id = j.skid_id JOIN site ON site.id = j.site_id
         WHERE j.state = 'finished' AND j.finished_at > ${since} ORDER BY j.finished_at, j.no LIMIT 100`,
    );
  }

  /** The caller's skids, each with its standing and its most urgent need. */
  skids(caller: Caller, now: Date): Promise<SkidFact[]> {
    return this.database.readFor(caller, (reader) =>
      reader.$queryRawUnsafe<SkidFact[]>(
        `WITH ${SKID_STANDING_SQL}
         SELECT name AS "skidName", "siteName", "serviceState", standing, task FROM fleet WHERE kind = 'skid' ORDER BY "siteName", name LIMIT 200`,
        now,
      ),
    );
  }
}
