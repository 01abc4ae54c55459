/**
 * 1,000 skids with 20 rules each, their dues and the work ahead, written by SQL into an empty database: the size of the fleet without its record of readings. Days are spread as in a
 * fleet in good order: some overdue, a tenth due within two weeks, a few without a day.
 */
import pg from 'pg';

const SKIDS = 1000;
const RULES = 20;
const ZONES = ['Europe/Madrid', 'Asia/Kolkata', 'America/New_York'];

export async function seedDues(databaseUrl) {
  const client = new pg.Client({ connectionString: databaseUrl });
  await client.connect();
  const run = (sql, values) => client.query(sql, values);
  await run('BEGIN');
  await run(`INSERT INTO client (id, name) SELECT gen_random_uuid(), 'Client ' || n FROM generate_series(1, 60) n`);
  await run(
    `INSERT INTO site (id, client_id, name, time_zone)
     SELECT gen_random_uuid(), c.id, 'Site ' || n, ($1::text[])[1 + (row_number() OVER ())::int % 3] FROM client c, generate_series(1, 5) n`,
    [ZONES],
  );
  await run(`INSERT INTO rule_set (id, name) VALUES (gen_random_uuid(), 'Bench')`);
  await run(
    `INSERT INTO rule_set_version (id, rule_set_id, no, created_by, published_at, published_by) SELECT gen_random_uuid(), id, 1, 'bench', now(), 'bench' FROM rule_set`,
  );
  await run(
    `INSERT INTO task_sheet (id, task, kind) SELECT gen_random_uuid(), 'Task number ' || n, (ARRAY['service', 'inspection', 'part change'])[1 + n % 3] FROM generate_series(1, $1) n`,
    [RULES],
  );
  await run(`INSERT INTO task_sheet_version (id, task_sheet_id, no, created_by, usual_minutes) SELECT gen_random_uuid(), id, 1, 'bench', 45 FROM task_sheet`);
  await run(`INSERT INTO item (id, code, name, kind) SELECT gen_random_uuid(), 'B-' || n, 'Item ' || n, 'seal' FROM generate_series(1, 10) n`);
  await run(
    `INSERT INTO task_sheet_part (version_id, item_id, quantity) SELECT v.id, i.id, 1 FROM task_sheet_version v CROSS JOIN LATERAL (SELECT id FROM item WHERE v.id IS NOT NULL ORDER BY code LIMIT 2) i`,
  );
  await run(
    `INSERT INTO upkeep_rule (id, rule_set_version_id, task, position_kind, days, contains, task_sheet_id)
     SELECT gen_random_uuid(), (SELECT id FROM rule_set_version), task, 'valve', 365, '{}', id FROM task_sheet`,
  );
  await run(
    `INSERT INTO skid (id, client_id, site_id, name, rule_set_version_id)
     SELECT gen_random_uuid(), s.client_id, s.id, 'Skid ' || n, (SELECT id FROM rule_set_version)
       FROM generate_series(1, $1) n JOIN (SELECT *, row_number() OVER (ORDER BY id) AS at FROM site) s ON s.at = 1 + n % 300`,
    [SKIDS],
  );
  await run(
    `INSERT INTO position (id, client_id, skid_id, kind, name) SELECT gen_random_uuid(), client_id, id, 'valve', 'Valve ' || n FROM skid, generate_series(1, $1) n`,
    [RULES],
  );
  await run(
    `INSERT INTO due (id, client_id, skid_no, position_id, rule_id, task, task_sheet_id, "limit", earliest_on, best_on, latest_on, reason, computed_from, expected_minutes, computed_at)
     SELECT gen_random_uuid(), s.client_id, s.no, p.id, r.id, r.task, r.task_sheet_id, 'calendar', day - 30, day, day + 14,
            'Last done on 3 Mar; every 365 days, so by the day that is given, before the 2,000 h are used up.',
            '[{"name":"Rule","value":"2,000 run hours or 365 days, whichever first; counted from the day it was done"},{"name":"Last time","value":"2026-03-03 (service entry)"},{"name":"By run hours","value":"counter at 4900 h, 900 h since then, 1100 left, 18.0 h a day: 2026-05-01"},{"name":"By the calendar","value":"2027-03-03"}]',
            45, now()
       FROM skid s
       JOIN (SELECT *, row_number() OVER (PARTITION BY skid_id ORDER BY id) AS at FROM position) p ON p.skid_id = s.id
       JOIN (SELECT *, row_number() OVER (ORDER BY task) AS at FROM upkeep_rule) r ON r.at = p.at
      CROSS JOIN LATERAL (SELECT CASE WHEN random() < 0.02 THEN NULL ELSE current_date + (CASE WHEN random() < 0.04 THEN -20 - random() * 60 WHEN random() < 0.1 THEN random() * 14 ELSE 15 + random() * 500 END)::int END AS day WHERE p.id IS NOT NULL) d`,
  );
  await run(
    `INSERT INTO work_ahead (skid_no, week, kind, client_id, hours, tasks, detail)
     SELECT s.no, date_trunc('week', current_date)::date + 7 * w, k.kind, s.client_id, 1.5, 2, '[{"task":"Task number 1","times":1,"hours":0.75},{"task":"Task number 2","times":1,"hours":0.75}]'
       FROM skid s, generate_series(0, 51) w, unnest(ARRAY['service', 'inspection', 'part change']) AS k(kind)`,
  );
  await run('COMMIT');
  await run('ANALYZE');
  const [{ dues, weeks }] = (await run('SELECT (SELECT count(*)::int FROM due) AS dues, (SELECT count(*)::int FROM work_ahead) AS weeks')).rows;
  await client.end();
  return { skids: SKIDS, dues, weeks };
}
