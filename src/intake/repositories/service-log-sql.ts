/** What was done at a skid, from the tables of five kinds of facts, as a UNION to which other stages add theirs; $1 is the id of the skid. */
export const SERVICE_LOG_SQL = `
  SELECT 'clean ' || c.id AS id, 'clean' AS kind, c.at, NULL::uuid AS position_id,
         c.kind || ' with ' || c.chemical || coalesce(', ' || c.strength_mg_l || ' mg/L', '') || coalesce(', ' || c.contact_minutes || ' min', '') AS what,
         l.by, c.note
    FROM clean c LEFT JOIN load l ON l.no = c.load_no WHERE c.skid_id = $1::uuid
  UNION ALL
  SELECT 'fitted ' || f.id, 'fitted', f.fitted_at, f.position_id, i.name || coalesce(', serial ' || pt.serial_number, '') || coalesce(', lot ' || pt.lot, ''), f.fitted_by, ''
    FROM fitting f JOIN position p ON p.id = f.position_id JOIN part pt ON pt.id = f.part_id JOIN item i ON i.id = pt.item_id WHERE p.skid_id = $1::uuid
  UNION ALL
  SELECT 'removed ' || f.id, 'removed', f.removed_at, f.position_id, i.name || coalesce(', serial ' || pt.serial_number, ''), coalesce(f.removed_by, ''), coalesce(f.removal_reason, '')
    FROM fitting f JOIN position p ON p.id = f.position_id JOIN part pt ON pt.id = f.part_id JOIN item i ON i.id = pt.item_id
   WHERE p.skid_id = $1::uuid AND f.removed_at IS NOT NULL
  UNION ALL
  SELECT 'service ' || s.id, 'service', s.at, s.position_id, s.task || coalesce(', ' || s.minutes || ' min', ''), s.done_by, s.note FROM service_entry s WHERE s.skid_id = $1::uuid
  UNION ALL
  SELECT 'exchange ' || m.id || ' ' || r.at, 'exchange', r.at, m.position_id, m.kind || ': meter exchanged at ' || coalesce(r.old_final::text, '?') || ', new one begins at ' || r.value, l.by, ''
    FROM meter_reading r JOIN meter m ON m.id = r.meter_id JOIN position p ON p.id = m.position_id LEFT JOIN load l ON l.no = r.load_no
   WHERE p.skid_id = $1::uuid AND r.kind = 'exchange'
  UNION ALL
  SELECT 'state ' || c.id, 'state', c.at, NULL, c.state, c.by, c.note FROM service_state_change c WHERE c.skid_id = $1::uuid`;
