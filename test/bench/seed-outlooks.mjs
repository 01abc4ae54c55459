/**
 * Skids with two years of daily aggregates, written by SQL into an empty database: cartridge sets that clog by a power and are changed at the limit, membranes that lose permeability and are cleaned, ten machines
 * with their lives, 5,000 recent cycles each, and a forecast a week that can be held against what came.
 */
import pg from 'pg';

const DAYS = 730;
const CYCLES = 5000;
const SITES = 100;

export async function seedOutlooks(databaseUrl, skids) {
  const client = new pg.Client({ connectionString: databaseUrl });
  client.on('error', () => {}); // where a statement fails, that is what is to be told, and not that the server stopped
  await client.connect();
  const run = (sql, values) => client.query(sql, values);
  await run('BEGIN');
  await run(`INSERT INTO client (id, name) SELECT gen_random_uuid(), 'Client ' || n FROM generate_series(1, 20) n`);
  await run(
    `INSERT INTO site (id, client_id, name, time_zone) SELECT gen_random_uuid(), c.id, 'Site ' || n, 'Europe/Madrid'
       FROM generate_series(1, $1) n JOIN (SELECT id, row_number() OVER (ORDER BY id) AS at FROM client) c ON c.at = 1 + n % 20`,
    [SITES],
  );
  await run(`INSERT INTO item (id, code, name, kind) SELECT gen_random_uuid(), 'B-' || n, 'Cartridge ' || n, 'cartridge' FROM generate_series(1, 4) n`);
  await run(
    `INSERT INTO skid (id, client_id, site_id, name, rated_flow_m3h, flow_scheme, tmp_from, cartridge_limit_kpa, cartridge_reference_flow_m3h)
     SELECT gen_random_uuid(), s.client_id, s.id, 'Skid ' || n, 40, 'dead-end', 'pressures', 100, 40
       FROM generate_series(1, $1) n JOIN (SELECT *, row_number() OVER (ORDER BY id) AS at FROM site) s ON s.at = 1 + n % $2`,
    [skids, SITES],
  );
  await run(`INSERT INTO skid_area (skid_id, from_day, area_m2) SELECT id, current_date - 2000, 640 FROM skid`);
  await run(
    `INSERT INTO load (id, client_id, skid_id, kind, name, sha256, by) SELECT gen_random_uuid(), client_id, id, 'cycles', 'bench', '', 'bench' FROM skid`,
  );
  // A set lasts 50 to 122 days, a run between recovery cleans 70 to 130, each skid in a phase of its own.
  await run(`CREATE TEMP TABLE pace AS SELECT s.*, 50 + (s.no % 7) * 12 AS set_days, 70 + (s.no % 5) * 15 AS clean_days FROM skid s`);
  await run(
    `INSERT INTO daily_condition (skid_no, day, client_id, cycles, filtration_hours, filtrate_m3, filtrate_estimated, permeability, permeability_low, permeability_high, permeability_count,
       permeability_start, flux_lmh, tmp_kpa, temperature_c, cartridge_dp_kpa, feed_turbidity_ntu, left_out, doubtful, cartridge_left_out, by_hand)
     SELECT no, current_date - ${DAYS} + d, client_id, 50, 20, 800 * noise, false, k, 0.97 * k, 1.03 * k, 48, 1.05 * k, 62, 40, 15,
            (20 + 80 * power(((d + no * 13) % set_days)::float8 / set_days, 3.2)) * (2 - noise), 4, '{}', '{}', '{}', false
       FROM (SELECT p.*, d, 1 + 0.02 * (random() + random() + random() - 1.5) AS noise, 0 AS one FROM pace p, generate_series(0, ${DAYS - 1}) d OFFSET 0) x
      CROSS JOIN LATERAL (SELECT 200 * power(0.7, ((d + no * 7) % clean_days)::float8 / clean_days) * noise AS k) y`,
  );
  const clean = `{"kind": "baseline", "permeabilityLmhBar": 200, "referenceC": 20, "from": "last CIP", "assumed": false, "day": "2025-01-01"}`;
  await run(
    `INSERT INTO skid_condition (skid_no, client_id, computed_at, last_reading_at, baselines, daily_load_m3, daily_load_sd)
     SELECT no, client_id, now(), current_date - interval '1 hour', jsonb_build_object('commissioning', $1::jsonb, 'lastCip', $1::jsonb, 'lastCeb', $1::jsonb), 800, 60 FROM skid`,
    [clean],
  );
  await run(
    `INSERT INTO clean (id, client_id, skid_id, kind, at, chemical, load_no)
     SELECT gen_random_uuid(), p.client_id, p.id, 'CIP', current_date - ${DAYS} + d + interval '8 hours', 'citric acid', l.no
       FROM pace p JOIN load l ON l.skid_id = p.id, generate_series(0, ${DAYS - 1}) d WHERE (d + p.no * 7) % clean_days = 0`,
  );
  await run(
    `INSERT INTO position (id, client_id, skid_id, kind, name)
     SELECT gen_random_uuid(), s.client_id, s.id, k.kind, k.name FROM skid s,
       (VALUES ('pre-filter', 'Cartridge housing'), ('feed pump', 'Feed pump'), ('backwash pump', 'Backwash pump'), ('blower', 'Blower'), ('compressor', 'Compressor'), ('dosing pump', 'Dosing pump'),
               ('valve', 'Valve 1'), ('valve', 'Valve 2'), ('valve', 'Valve 3'), ('actuator', 'Actuator'), ('seal', 'Seal')) AS k(kind, name)`,
  );
  await run(
    `CREATE TEMP TABLE set_of AS SELECT gen_random_uuid() AS part_id, q.id AS position_id, p.no, p.client_id, d,
            lead(d) OVER (PARTITION BY q.id ORDER BY d) AS next, (SELECT id FROM item WHERE code = 'B-' || (1 + p.no % 4)) AS item_id
       FROM pace p JOIN position q ON q.skid_id = p.id AND q.kind = 'pre-filter', generate_series(0, ${DAYS - 1}) d WHERE (d + p.no * 13) % set_days = 0`,
  );
  await run(`INSERT INTO part (id, item_id, set_count) SELECT part_id, item_id, 7 FROM set_of`);
  await run(
    `INSERT INTO fitting (id, client_id, position_id, part_id, fitted_at, fitted_by, removed_at, removed_by, removal_reason)
     SELECT gen_random_uuid(), client_id, position_id, part_id, current_date - ${DAYS} + d, 'bench', current_date - ${DAYS} + next, CASE WHEN next IS NOT NULL THEN 'bench' END,
            CASE WHEN next IS NOT NULL THEN 'pressure drop at the limit' END FROM set_of`,
  );
  await run(
    `INSERT INTO part_life (fitting_id, clock, skid_no, position_id, part_id, position_kind, life, ended, ended_on)
     SELECT gen_random_uuid(), clock, s.no, q.id, gen_random_uuid(), q.kind, (CASE clock WHEN 'days' THEN 1 ELSE 20 END) * (300 + 900 * random()), ended,
            CASE WHEN ended = 'failed' THEN current_date - (700 * random())::int END
       FROM skid s JOIN position q ON q.skid_id = s.id AND q.kind <> 'pre-filter', unnest(ARRAY['days', 'run hours']) clock, unnest(ARRAY['in use', 'failed']) ended`,
  );
  await run(
    `INSERT INTO machine_condition (position_id, kind, client_id, skid_no, life, as_of, daily_use, source, rejected)
     SELECT q.id, 'run hours', q.client_id, s.no, 12000, now(), 20, 'meter', '[]' FROM skid s JOIN position q ON q.skid_id = s.id AND q.kind <> 'pre-filter'`,
  );
  await run(
    `INSERT INTO outlook (skid_no, client_id, subject, part_id, limit_kind, limit_value, clock, origin_at, origin_day, computed_at, model, model_version, kind, met_by_day, share_beyond, p10_days, p50_days, p90_days,
       path, reason, data_used)
     SELECT p.no, p.client_id, o.subject, o.part_id, o.kind, o.value, 'filtrate', o.day, o.day, o.day, 'bench', '1', 'outlook', '{}', 0, 0.7 * o.days, o.days, 1.4 * o.days, '[]', 'As seen by the bench.', '[]'
       FROM pace p, generate_series(60, ${DAYS - 8}, 7) AS g(at)
      CROSS JOIN LATERAL (
        SELECT 'membranes' AS subject, NULL::uuid AS part_id, 'permeability' AS kind, 140 AS value, current_date - ${DAYS} + g.at AS day, clean_days - (g.at + p.no * 7) % clean_days AS days
        UNION ALL SELECT s.position_id::text, s.part_id, 'cartridge dP', 100, current_date - ${DAYS} + g.at, set_days - (g.at + p.no * 13) % set_days
          FROM set_of s WHERE s.no = p.no AND s.d <= g.at AND (s.next IS NULL OR s.next > g.at)) o`,
  );
  await run('COMMIT');
  await run(
    `INSERT INTO cycle (skid_no, started_at, ended_at, filtration_minutes, filtrate_m3, flow_m3h, feed_kpa, filtrate_kpa, tmp_kpa, temperature_c, cartridge_dp_kpa, quality, load_no)
     SELECT s.no, t.began, t.began + interval '22 minutes', 22, 14.6, 40, 120, 60, 60, 15, 40, 0, l.no
       FROM skid s JOIN load l ON l.skid_id = s.id, generate_series(1, ${CYCLES}) n CROSS JOIN LATERAL (SELECT current_date - n * interval '25 minutes' AS began) t`,
  );
  await run('ANALYZE');
  await client.end();
  return {};
}
