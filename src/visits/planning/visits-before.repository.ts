import type { Reader } from '../../app/index.js';
import type { VisitBefore } from '../core/plan-facts/overtime-before.js';

/** Visits from one day to another, the last day not among them, as planned, and of those that are finished when the work ended by the job sheets that count. */
export const visitsBefore = (reader: Reader, from: string, until: string): Promise<VisitBefore[]> =>
  reader.$queryRaw<VisitBefore[]>`
    SELECT v.site_id AS "siteId", to_char(v.on_day, 'YYYY-MM-DD') AS "onDay", v.start_time AS "startTime", v.minutes + v.break_minutes AS minutes,
           ARRAY(SELECT person_id::text FROM visit_person WHERE visit_id = v.id) AS "personIds",
           (extract(epoch FROM r.ended - v.on_day::timestamp) / 60)::float8 AS "endedAt"
      FROM visit v JOIN site ON site.id = v.site_id
      CROSS JOIN LATERAL (SELECT max(r.finished_at AT TIME ZONE site.time_zone) AS ended FROM job j JOIN job_report r ON r.job_id = j.id AND r.state = 'counts'
                           WHERE v.state = 'finished' AND j.visit_id = v.id AND (r.finished_at AT TIME ZONE site.time_zone)::date = v.on_day) r
     WHERE v.state <> 'called off' AND v.on_day >= ${from}::date AND v.on_day < ${until}::date ORDER BY v.on_day, v.no`;
