import { STANDING_SQL } from '../upkeep/index.js';
import { TANK_SHORT_ON_SQL } from './short-on-sql.js';

/** After this many days without a reading a skid is silent: a week for a logged plant, three for one read by hand once a week. Out of service it has nothing to say, and the days count from the restart. */
const SILENT_DAYS = { logged: 7, byHand: 21 };

/**
 * Every skid that the caller may see with its most urgent need: one that is overdue, else the one whose day comes first. Its standing is the skid's, unless the
 * plant is silent. Common table expressions, of which `fleet` is the last; $1 is the moment. Materialised, since a page and its counts both read it.
 */
export const SKID_STANDING_SQL = `
  zoned AS (
    SELECT s.*, site.name AS site_name, site.time_zone, client.name AS client_name, ($1::timestamptz AT TIME ZONE site.time_zone)::date AS today
      FROM skid s JOIN site ON site.id = s.site_id JOIN client ON client.id = s.client_id
     WHERE s.ended_on IS NULL AND s.service_state <> 'retired'
  ), need AS (
    SELECT d.skid_no, d.task, d.best_on, d.latest_on, d.reason FROM due d
    UNION ALL
    SELECT s.no, 'Refill ' || t.name, ${TANK_SHORT_ON_SQL}, c.run_out_on, c.reason
      FROM tank_cover c JOIN tank t ON t.id = c.tank_id JOIN skid s ON s.id = t.skid_id WHERE c.run_out_on IS NOT NULL AND t.ended_on IS NULL
  ), first AS (
    SELECT DISTINCT ON (n.skid_no) n.*, zoned.today FROM need n JOIN zoned ON zoned.no = n.skid_no
     ORDER BY n.skid_no, coalesce(n.latest_on, n.best_on) < zoned.today DESC NULLS LAST, n.best_on NULLS LAST, n.task
  ), judged AS (SELECT first.*, ${STANDING_SQL} AS standing FROM first),
  fleet AS MATERIALIZED (
    SELECT z.id AS "skidId", z.no, z.name, z.site_name AS "siteName", z.client_name AS "clientName", z.client_id, z.kind, z.service_state AS "serviceState", z.water,
           z.time_zone AS "timeZone", f.task, to_char(f.best_on, 'YYYY-MM-DD') AS "bestOn", f.reason, k.last_reading_at AS "lastReadingAt", k.daily_load_m3 AS "dailyLoadM3",
           silent.is_silent AS silent,
           CASE WHEN f.standing IN ('overdue', 'due') THEN f.standing WHEN silent.is_silent THEN 'no-data' WHEN f.standing = 'watch' THEN 'watch' ELSE 'steady' END AS standing
      FROM zoned z LEFT JOIN judged f ON f.skid_no = z.no LEFT JOIN skid_condition k ON k.skid_no = z.no
        CROSS JOIN LATERAL (SELECT z.kind = 'skid' AND z.service_state = 'in service' AND (k.last_reading_at IS NULL OR greatest(k.last_reading_at,
          (SELECT max(c.at) FROM service_state_change c WHERE c.skid_id = z.id AND c.state = 'in service')) < $1::timestamptz - make_interval(days => CASE WHEN k.by_hand THEN ${SILENT_DAYS.byHand} ELSE ${SILENT_DAYS.logged} END)) AS is_silent) silent
  )`;
