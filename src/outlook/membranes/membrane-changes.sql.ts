/** Days on which a tenth of a skid's modules or more were changed, or its area, as an SQL expression over `s` (skid) and `site`. Single modules move the level of the whole by less than its scatter. */
export const MEMBRANE_CHANGES = `ARRAY(
  SELECT to_char(c.day, 'YYYY-MM-DD') FROM (
    SELECT (f.fitted_at AT TIME ZONE site.time_zone)::date AS day FROM fitting f JOIN position p ON p.id = f.position_id WHERE p.skid_id = s.id AND p.kind = 'module' GROUP BY 1
    HAVING 10 * count(*) >= (SELECT count(*) FROM position m WHERE m.skid_id = s.id AND m.kind = 'module' AND m.ended_on IS NULL)
    UNION SELECT a.from_day FROM skid_area a WHERE a.skid_id = s.id) c ORDER BY c.day)`;
