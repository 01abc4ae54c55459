import { Injectable } from '@nestjs/common';
import { type Caller, Database, type Reader } from '../app/index.js';
import type { ServiceState } from '../shared/service-states.js';
import type { OpenWork } from './core/indicators/backlog.js';
import type { BreakdownFact } from './core/indicators/breakdown-fact.js';
import type { WorkDone } from './core/indicators/preventive-share.js';
import type { PlannedTime, TravelTime } from './core/indicators/visit-figures.js';

export interface IndicatorScope {
  readonly skidId: string | undefined;
  readonly clientId: string | undefined;
  readonly from: string;
  readonly to: string;
}

export interface ScopedSkid {
  readonly id: string;
  /** The days of the period as they begin and end at the site */
  readonly fromAt: Date;
  readonly toAt: Date;
  readonly state: ServiceState;
  readonly commissionedAt: Date | null;
  readonly endedAt: Date | null;
  readonly changes: { readonly at: string; readonly state: ServiceState }[];
}

export type ScopedBreakdown = BreakdownFact & { readonly positionId: string | null; readonly failureMode: string | null; readonly mechanism: string | null };

/** Shared equipment counts where it is asked for by itself. */
const SCOPED = `
  WITH scoped AS (
    SELECT s.*, site.time_zone, $3::date::timestamp AT TIME ZONE site.time_zone AS from_at, ($4::date + 1)::timestamp AT TIME ZONE site.time_zone AS to_at
      FROM skid s JOIN site ON site.id = s.site_id
     WHERE ($1::uuid IS NULL AND s.kind = 'skid' OR s.id = $1) AND ($2::uuid IS NULL OR s.client_id = $2)
  )`;

/** The facts of the indicators: each set one query, whatever the number of skids. */
@Injectable()
export class IndicatorsRepository {
  constructor(private readonly database: Database) {}

  readFor<T>(caller: Caller, work: (reader: Reader) => Promise<T>): Promise<T> {
    return this.database.readFor(caller, work);
  }

  skids(reader: Reader, scope: IndicatorScope): Promise<ScopedSkid[]> {
    return rows(
      reader,
      scope,
      `SELECT s.id, s.from_at AS "fromAt", s.to_at AS "toAt", s.service_state AS state, s.commissioned_on::timestamp AT TIME ZONE s.time_zone AS "commissionedAt",
              (s.ended_on + 1)::timestamp AT TIME ZONE s.time_zone AS "endedAt",
              coalesce((SELECT jsonb_agg(jsonb_build_object('at', c.at, 'state', c.state) ORDER BY c.at, c.id) FROM service_state_change c WHERE c.skid_id = s.id), '[]') AS changes
         FROM scoped s ORDER BY s.no`,
    );
  }

  breakdowns(reader: Reader, scope: IndicatorScope): Promise<ScopedBreakdown[]> {
    return rows(
      reader,
      scope,
      `SELECT b.skid_id AS "skidId", b.severity, b.noticed_at AS "noticedAt", b.down_from AS "downFrom", b.restored_at AS "restoredAt", b.repair_minutes AS "repairMinutes",
              j.state IN ('finished', 'dropped') AS ended, coalesce(b.sign, '') LIKE 'tank %' AS "ofTank", b.position_id AS "positionId",
              b.failure_mode AS "failureMode", b.mechanism
         FROM scoped s JOIN breakdown b ON b.skid_id = s.id JOIN job j ON j.id = b.job_id
        WHERE coalesce(b.down_from, b.noticed_at) < s.to_at AND (b.restored_at IS NULL OR b.restored_at >= s.from_at OR b.noticed_at >= s.from_at)`,
    );
  }

  async filtrationHours(reader: Reader, scope: IndicatorScope): Promise<number> {
    const [row] = await rows<{ hours: number | null }>(
      reader,
      scope,
      'SELECT sum(d.filtration_hours) AS hours FROM scoped s JOIN daily_condition d ON d.skid_no = s.no WHERE d.day BETWEEN $3::date AND $4::date',
    );
    return row?.hours ?? 0;
  }

  /** Tasks whose latest day lies in the period and is past, or that were done; of dues, those that no open job holds. */
  async inTime(reader: Reader, scope: IndicatorScope, now: Date): Promise<{ due: number; inTime: number }> {
    const [row] = await rows<{ due: number; inTime: number }>(
      reader,
      scope,
      `, planned AS (
          SELECT t.outcome = 'done' AND (t.done_at AT TIME ZONE s.time_zone)::date <= t.latest_on AS in_time
            FROM scoped s JOIN job j ON j.skid_id = s.id AND j.state <> 'dropped' JOIN job_task t ON t.job_id = j.id
           WHERE t.latest_on BETWEEN $3::date AND $4::date AND (t.outcome = 'done' OR t.latest_on < ($5::timestamptz AT TIME ZONE s.time_zone)::date)
          UNION ALL
          SELECT false FROM scoped s JOIN due d ON d.skid_no = s.no
           WHERE d.latest_on BETWEEN $3::date AND $4::date AND d.latest_on < ($5::timestamptz AT TIME ZONE s.time_zone)::date AND NOT EXISTS (
             SELECT 1 FROM job j JOIN job_task t ON t.job_id = j.id WHERE j.skid_id = s.id AND j.state NOT IN ('finished', 'dropped') AND t.outcome IS NULL
                AND t.task = d.task AND t.position_id IS NOT DISTINCT FROM d.position_id)
        )
       SELECT count(*)::int AS due, (count(*) FILTER (WHERE in_time))::int AS "inTime" FROM planned`,
      now,
    );
    return row ?? { due: 0, inTime: 0 };
  }

  workDone(reader: Reader, scope: IndicatorScope): Promise<WorkDone[]> {
    return rows(
      reader,
      scope,
      `SELECT j.kind, count(*)::int AS jobs, coalesce(sum(r.minutes), 0) / 60 AS hours
         FROM scoped s JOIN job j ON j.skid_id = s.id AND j.state = 'finished' AND j.finished_at >= s.from_at AND j.finished_at < s.to_at
         LEFT JOIN LATERAL (SELECT sum(minutes) AS minutes FROM job_report WHERE job_id = j.id AND state = 'counts') r ON true GROUP BY j.kind`,
    );
  }

  /** What lies in jobs now, and how many technicians there are. */
  async openWork(reader: Reader, scope: IndicatorScope): Promise<OpenWork & { readonly technicians: number }> {
    const [row] = await rows<OpenWork & { technicians: number }>(
      reader,
      scope,
      `SELECT coalesce(sum(t.expected_minutes) FILTER (WHERE j.state <> 'waiting'), 0)::float8 / 60 AS "readyHours",
              coalesce(sum(t.expected_minutes) FILTER (WHERE j.state = 'waiting'), 0)::float8 / 60 AS "waitingHours",
              (count(*) FILTER (WHERE t.expected_minutes IS NULL))::int AS "untimedTasks",
              (SELECT count(*) FROM person WHERE role = 'technician' AND ended_at IS NULL)::int AS technicians
         FROM scoped s JOIN job j ON j.skid_id = s.id AND j.state NOT IN ('finished', 'dropped') JOIN job_task t ON t.job_id = j.id AND t.outcome IS NULL`,
    );
    return row ?? { readyHours: 0, waitingHours: 0, untimedTasks: 0, technicians: 0 };
  }

  /** Jobs that sheets ended, and of these the ones of a single sheet with every task done. */
  async firstVisits(reader: Reader, scope: IndicatorScope): Promise<{ finished: number; atFirst: number }> {
    const [row] = await rows<{ finished: number; atFirst: number }>(
      reader,
      scope,
      `SELECT count(*)::int AS finished, (count(*) FILTER (WHERE r.sheets = 1 AND NOT EXISTS (
                SELECT 1 FROM job_task t WHERE t.job_id = j.id AND t.outcome IS DISTINCT FROM 'done')))::int AS "atFirst"
         FROM scoped s JOIN job j ON j.skid_id = s.id AND j.state = 'finished' AND j.finished_at >= s.from_at AND j.finished_at < s.to_at
         CROSS JOIN LATERAL (SELECT count(*) AS sheets FROM job_report WHERE job_id = j.id AND state = 'counts' AND NOT content ? 'fromOlderRecord') r WHERE r.sheets > 0`,
    );
    return row ?? { finished: 0, atFirst: 0 };
  }

  /** Of finished visits with work at these skids. */
  async travelTime(reader: Reader, scope: IndicatorScope): Promise<TravelTime> {
    const [row] = await rows<TravelTime>(
      reader,
      scope,
      `, of_visit AS (
          SELECT j.visit_id, sum(r.minutes) AS worked,
                 sum(CASE WHEN jsonb_typeof(r.content -> 'travelMinutes') = 'number' THEN (r.content ->> 'travelMinutes')::float8 END) AS travelled
            FROM scoped s JOIN job j ON j.skid_id = s.id JOIN visit v ON v.id = j.visit_id AND v.state = 'finished' AND v.on_day BETWEEN $3::date AND $4::date
            JOIN job_report r ON r.job_id = j.id AND r.state = 'counts' GROUP BY j.visit_id
        )
       SELECT coalesce(sum(travelled), 0)::float8 / 60 AS "travelHours", coalesce(sum(worked) FILTER (WHERE travelled IS NOT NULL), 0)::float8 / 60 AS "workHours",
              (count(*) FILTER (WHERE travelled IS NULL))::int AS untold FROM of_visit`,
    );
    return row ?? { travelHours: 0, workHours: 0, untold: 0 };
  }

  /** Visits at the sites of these skids by the day first promised: a visit that was called off holds no job any more. */
  async promises(reader: Reader, scope: IndicatorScope, now: Date): Promise<{ promised: number; kept: number }> {
    const [row] = await rows<{ promised: number; kept: number }>(
      reader,
      scope,
      `, promise AS (
          SELECT v.id, site.time_zone, coalesce((SELECT split_part(c."from", ' ', 1)::date FROM visit_change c WHERE c.visit_id = v.id AND c.what = 'time' AND c.to_client
                                                  ORDER BY c.id LIMIT 1), v.on_day) AS day
            FROM visit v JOIN site ON site.id = v.site_id WHERE v.promised_at IS NOT NULL AND v.site_id IN (SELECT site_id FROM scoped)
        )
       SELECT count(*)::int AS promised, (count(*) FILTER (WHERE EXISTS (
                SELECT 1 FROM job j JOIN job_report r ON r.job_id = j.id AND r.state = 'counts'
                 WHERE j.visit_id = p.id AND (r.started_at AT TIME ZONE p.time_zone)::date = p.day)))::int AS kept
         FROM promise p WHERE p.day BETWEEN $3::date AND $4::date AND p.day < ($5::timestamptz AT TIME ZONE p.time_zone)::date`,
      now,
    );
    return row ?? { promised: 0, kept: 0 };
  }

  /** Of finished jobs with sheets, by kind, what their tasks usually take and what they took. */
  plannedTime(reader: Reader, scope: IndicatorScope): Promise<PlannedTime[]> {
    return rows(
      reader,
      scope,
      `, timed AS (
          SELECT j.kind, r.minutes AS actual, p.minutes AS planned
            FROM scoped s JOIN job j ON j.skid_id = s.id AND j.state = 'finished' AND j.finished_at >= s.from_at AND j.finished_at < s.to_at
            CROSS JOIN LATERAL (SELECT sum(minutes) AS minutes FROM job_report WHERE job_id = j.id AND state = 'counts') r
            CROSS JOIN LATERAL (
              SELECT CASE WHEN bool_and(coalesce(t.expected_minutes, v.usual_minutes) IS NOT NULL)
                          THEN sum(coalesce(t.expected_minutes, v.usual_minutes) * coalesce(v.crew, 1)) END AS minutes
                FROM job_task t LEFT JOIN task_sheet_version v ON v.id = t.sheet_version_id WHERE t.job_id = j.id AND t.outcome = 'done') p
           WHERE r.minutes IS NOT NULL
        )
       SELECT kind, (count(*) FILTER (WHERE planned > 0))::int AS jobs, coalesce(sum(planned) FILTER (WHERE planned > 0), 0)::float8 / 60 AS "plannedHours",
              coalesce(sum(actual) FILTER (WHERE planned > 0), 0)::float8 / 60 AS "actualHours", (count(*) FILTER (WHERE planned IS NULL OR planned = 0))::int AS unplanned
         FROM timed GROUP BY kind ORDER BY kind`,
    );
  }

  clientExists = async (reader: Reader, id: string): Promise<boolean> => (await reader.client.count({ where: { id } })) === 1;
}

function rows<Row extends object>(reader: Reader, { skidId, clientId, from, to }: IndicatorScope, select: string, ...more: unknown[]): Promise<Row[]> {
  return reader.$queryRawUnsafe<Row[]>(`${SCOPED}${select.startsWith(',') ? '' : ' '}${select}`, skidId ?? null, clientId ?? null, from, to, ...more);
}
