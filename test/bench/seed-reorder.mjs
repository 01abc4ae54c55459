/**
 * 5,000 items over 40 places on 1,000 skids, written by SQL into an empty database: three years of use in the ledger (most of it at the first store, some at four
 * others and at 25 vans that carry 150 items each), offers and orders of 60 suppliers, 20 dues a skid, a third of which take parts, the work ahead, and three fitted cartridge sets a skid with their outlooks and what came of earlier ones.
 */
import pg from 'pg';

const [SKIDS, ITEMS, MONTHS] = [1000, 5000, 36];

export async function seedReorder(databaseUrl) {
  const client = new pg.Client({ connectionString: databaseUrl });
  await client.connect();
  const run = (sql, values) => client.query(sql, values);
  await run('BEGIN');
  await run('SELECT setseed(0.42)');
  await fleet(run);
  await catalogue(run);
  await work(run);
  await outlooks(run);
  await ledger(run);
  await run('COMMIT');
  await run('ANALYZE');
  const {
    rows: [counts],
  } = await run(
    `SELECT (SELECT count(*)::int FROM item) AS items, (SELECT count(*)::int FROM place WHERE kind <> 'transit') AS places, (SELECT count(*)::int FROM skid) AS skids,
            (SELECT count(*)::int FROM stock_move) AS moves, (SELECT count(*)::int FROM due) AS dues, (SELECT count(*)::int FROM outlook) AS outlooks`,
  );
  const busiest = await run(`SELECT item_id FROM stock_move GROUP BY 1 ORDER BY count(*) DESC LIMIT 1`);
  const withOutlooks = await run(`SELECT part.item_id FROM part JOIN fitting f ON f.part_id = part.id GROUP BY 1 ORDER BY count(*) DESC LIMIT 1`);
  const withDues = await run(`SELECT item_id FROM task_sheet_part GROUP BY 1 ORDER BY count(*) DESC, 1 LIMIT 1`);
  await client.end();
  const asked = { busiest: busiest.rows[0].item_id, withOutlooks: withOutlooks.rows[0].item_id, withDues: withDues.rows[0].item_id };
  return Object.assign(counts, { asked });
}

async function fleet(run) {
  await run(`INSERT INTO client (id, name) SELECT gen_random_uuid(), 'Client ' || n FROM generate_series(1, 60) n`);
  await run(
    `INSERT INTO site (id, client_id, name, time_zone) SELECT gen_random_uuid(), c.id, 'Site ' || n, 'Europe/Madrid' FROM client c, generate_series(1, 5) n`,
  );
  await run(
    `INSERT INTO skid (id, client_id, site_id, name) SELECT gen_random_uuid(), s.client_id, s.id, 'Skid ' || n
       FROM generate_series(1, $1) n JOIN (SELECT *, row_number() OVER (ORDER BY id) AS at FROM site) s ON s.at = 1 + n % 300`,
    [SKIDS],
  );
  await run(`INSERT INTO place (id, name, kind) SELECT gen_random_uuid(), 'Store ' || n, 'store' FROM generate_series(1, 5) n`);
  await run(
    `INSERT INTO person (id, name, email, role) SELECT gen_random_uuid(), 'Technician ' || n, 't' || n || '@example.org', 'technician' FROM generate_series(1, 25) n`,
  );
  await run(`INSERT INTO place (id, name, kind, person_id) SELECT gen_random_uuid(), 'Van of ' || name, 'van', id FROM person WHERE role = 'technician'`);
  await run(
    `INSERT INTO place (id, name, kind, site_id) SELECT gen_random_uuid(), 'Shed ' || id, 'site', id FROM (SELECT id FROM site ORDER BY id LIMIT 10) s`,
  );
  await run(
    `INSERT INTO site_supply (site_id, place_id) SELECT s.id, p.id FROM (SELECT id, row_number() OVER (ORDER BY id) AS at FROM site) s
       JOIN (SELECT id, row_number() OVER (ORDER BY id) AS at FROM place WHERE kind = 'store') p ON p.at = 1 + s.at % 5`,
  );
}

async function catalogue(run) {
  await run(`INSERT INTO item (id, code, name, kind) SELECT gen_random_uuid(), 'B-' || n, 'Item ' || n, 'seal' FROM generate_series(1, $1) n`, [ITEMS]);
  await run(
    `INSERT INTO item_supply (item_id, criticality, shelf_life_days) SELECT id, (ARRAY['stops the skid', 'hampers the skid', 'can wait', 'can wait', 'can wait'])[1 + (random() * 4)::int],
            CASE WHEN random() < 0.1 THEN 365 END FROM item`,
  );
  await run(`INSERT INTO item_cost (item_id, average) SELECT id, 5 + 200 * random() ^ 3 FROM item`);
  await run(
    `INSERT INTO supplier (id, name, currency, lead_days, order_cost) SELECT gen_random_uuid(), 'Supplier ' || n, 'EUR', (7 + 60 * random())::int, 25 FROM generate_series(1, 60) n`,
  );
  await run(
    `INSERT INTO offer (id, item_id, supplier_id, purchase_unit, units_per_purchase, pack) SELECT gen_random_uuid(), i.id, s.id, 'C62', 1, (ARRAY[1, 1, 1, 5, 10])[1 + (random() * 4)::int]
       FROM (SELECT id, row_number() OVER (ORDER BY id) AS at FROM item) i JOIN (SELECT id, row_number() OVER (ORDER BY id) AS at FROM supplier) s ON s.at = 1 + i.at % 60`,
  );
  await run(`INSERT INTO offer_price (offer_id, from_day, price, by) SELECT o.id, current_date - 400, 10, 'bench' FROM offer o`);
  await run(
    `INSERT INTO purchase_order (id, supplier_id, place_id, state, currency, rate, made_at, made_by, approved_at, sent_at, ended_at)
     SELECT gen_random_uuid(), s.id, (SELECT id FROM place WHERE kind = 'store' ORDER BY id LIMIT 1), CASE WHEN n <= 36 THEN 'closed' ELSE 'sent' END, 'EUR', 1, at, 'bench', at, at,
            CASE WHEN n <= 36 THEN at + interval '40 days' END
       FROM supplier s, generate_series(1, 37) n CROSS JOIN LATERAL (SELECT now() - make_interval(days => 30 * (37 - n) + 5) AS at) t`,
  );
  await run(
    `INSERT INTO purchase_order_line (id, order_id, no, item_id, unit, units_per_purchase, quantity, price)
     SELECT gen_random_uuid(), o.id, row_number() OVER (PARTITION BY o.id ORDER BY f.item_id), f.item_id, 'C62', 1, 10, 10
       FROM purchase_order o JOIN LATERAL (SELECT item_id FROM offer WHERE supplier_id = o.supplier_id ORDER BY md5(item_id::text || o.id::text) LIMIT 8) f ON true`,
  );
  await run(
    `INSERT INTO order_receipt (id, order_id, at, entered_at, by_id, by, request_hash) SELECT gen_random_uuid(), id, at, at, gen_random_uuid(), 'bench', 'x'
       FROM purchase_order CROSS JOIN LATERAL (SELECT sent_at + make_interval(days => (8 + 50 * random())::int) AS at) t WHERE state = 'closed'`,
  );
  await run(
    `INSERT INTO order_receipt_line (receipt_id, line_id, outcome, quantity, place_id) SELECT r.id, l.id, 'good', l.quantity, o.place_id
       FROM order_receipt r JOIN purchase_order o ON o.id = r.order_id JOIN purchase_order_line l ON l.order_id = o.id`,
  );
}

async function work(run) {
  await run(`INSERT INTO task_sheet (id, task, kind) SELECT gen_random_uuid(), 'Task number ' || n, 'service' FROM generate_series(1, 200) n`);
  await run(`INSERT INTO task_sheet_version (id, task_sheet_id, no, created_by, usual_minutes) SELECT gen_random_uuid(), id, 1, 'bench', 45 FROM task_sheet`);
  await run(
    `INSERT INTO task_sheet_part (version_id, item_id, quantity) SELECT v.id, i.id, 1 + (random() * 2)::int
       FROM task_sheet_version v CROSS JOIN LATERAL (SELECT id FROM item ORDER BY md5(id::text || v.id::text) LIMIT 3) i WHERE hashtext(v.task_sheet_id::text) % 3 = 0`,
  );
  await run(
    `INSERT INTO due (id, client_id, skid_no, task, task_sheet_id, "limit", earliest_on, best_on, latest_on, reason, computed_from, computed_at)
     SELECT gen_random_uuid(), s.client_id, s.no, t.task, t.id, 'calendar', day - 30, day, day + 14, 'By the calendar', '[]', now()
       FROM skid s JOIN generate_series(1, 20) n ON true JOIN (SELECT *, row_number() OVER (ORDER BY task) AS at FROM task_sheet) t ON t.at = 1 + (s.no * 7 + n * 13) % 200
      CROSS JOIN LATERAL (SELECT current_date + (CASE WHEN random() < 0.04 THEN -20 ELSE 500 * random() END)::int + 0 * n AS day) d`,
  );
  await run(
    `INSERT INTO work_ahead (skid_no, week, kind, client_id, hours, tasks, detail)
     SELECT d.skid_no, date_trunc('week', current_date)::date + 7 * w, 'service', min(d.client_id::text)::uuid, 1, count(*),
            jsonb_agg(jsonb_build_object('task', d.task, 'times', 1, 'hours', 0.75))
       FROM due d, generate_series(0, 51) w WHERE (hashtext(d.task || d.skid_no) + w) % 26 = 0 GROUP BY 1, 2`,
  );
}

async function outlooks(run) {
  await run(
    `INSERT INTO position (id, client_id, skid_id, kind, name) SELECT gen_random_uuid(), client_id, id, 'pre-filter', 'Pre-filter ' || n FROM skid, generate_series(1, 3) n`,
  );
  await run(
    `INSERT INTO part (id, item_id, set_count) SELECT gen_random_uuid(), i.id, 8 FROM (SELECT row_number() OVER (ORDER BY id) AS at FROM position) p
       JOIN (SELECT id, row_number() OVER (ORDER BY code) AS at FROM item LIMIT 40) i ON i.at = 1 + p.at % 40`,
  );
  await run(
    `INSERT INTO fitting (id, client_id, position_id, part_id, fitted_at, fitted_by) SELECT gen_random_uuid(), p.client_id, p.id, part.id, now() - interval '60 days', 'bench'
       FROM (SELECT *, row_number() OVER (ORDER BY id) AS at FROM position) p JOIN (SELECT *, row_number() OVER (ORDER BY id) AS at FROM part) part USING (at)`,
  );
  await run(
    `INSERT INTO outlook (skid_no, client_id, subject, limit_kind, limit_value, clock, origin_at, origin_day, computed_at, model, model_version, kind, met_by_day, share_beyond, p10_days, p50_days,
                          p90_days, path, reason, data_used)
     SELECT s.no, s.client_id, p.id::text, 'cartridge dP', 150, 'filtrate', now() - make_interval(days => w), current_date - w, now(), 'bench', '1', 'outlook', '{}', 0, life * 0.7, life, life * 1.4,
            '[]', 'bench', '[]'
       FROM position p JOIN skid s ON s.id = p.skid_id, generate_series(0, 49, 7) w CROSS JOIN LATERAL (SELECT 10 + 110 * random() + 0 * w AS life) l`,
  );
  await run(
    `INSERT INTO outlook_score (outlook_id, skid_no, client_id, life, kind, truth_days, error_days, inside)
     SELECT id, skid_no, client_id, subject, 'scored', greatest(1, p50_days * exp(0.4 * (random() + random() + random() - 1.5)))::int, 0, true FROM outlook WHERE origin_day < current_date`,
  );
}

/** Most items are needed seldom, a few each month. */
async function ledger(run) {
  await run(
    `CREATE TEMP TABLE kept AS
     SELECT i.id AS item_id, p.id AS place_id, 0.9 * random() ^ 3 AS rate FROM item i, (SELECT id FROM place WHERE kind = 'store' ORDER BY id LIMIT 1) p
     UNION ALL SELECT i.id, p.id, 0.3 * random() ^ 3 FROM item i, (SELECT id FROM place WHERE kind = 'store' ORDER BY id OFFSET 1) p WHERE hashtext(i.id::text || p.id) % 4 = 0
     UNION ALL SELECT i.id, p.id, 0.1 * random() FROM item i, place p WHERE p.kind = 'van' AND hashtext(i.id::text || p.id) % 33 = 0`,
  );
  await run(
    `CREATE TEMP TABLE want AS SELECT item_id, place_id, m, 1 + (random() * 2)::int AS quantity FROM kept, generate_series(0, $1 - 1) m WHERE random() + 0 * m < rate`,
    [MONTHS],
  );
  await run(`CREATE TEMP TABLE posted AS SELECT gen_random_uuid() AS id, m FROM generate_series(0, $1) m`, [MONTHS]);
  await run(
    `INSERT INTO stock_post (id, kind, at, by_id, by, request_hash) SELECT id, CASE WHEN m = $1 THEN 'receive' ELSE 'use' END, date_trunc('month', now()) - make_interval(months => m, days => -3), gen_random_uuid(),
            'bench', 'x' FROM posted`,
    [MONTHS],
  );
  await run(
    `INSERT INTO stock_move (post_id, item_id, quantity, to_place_id)
     SELECT (SELECT id FROM posted WHERE m = $1), item_id, sum(quantity) + max((random() * 8)::int), place_id FROM want GROUP BY item_id, place_id`,
    [MONTHS],
  );
  await run(
    `INSERT INTO stock_move (post_id, item_id, quantity, from_place_id) SELECT posted.id, item_id, sum(quantity), place_id FROM want JOIN posted USING (m) GROUP BY posted.id, item_id, place_id`,
  );
  await run(
    `INSERT INTO stock_balance (place_id, item_id, on_hand) SELECT place_id, item_id, sum(quantity) FROM stock_effect GROUP BY 1, 2 HAVING sum(quantity) > 0`,
  );
  await run(
    `INSERT INTO stock_setting (item_id, place_id, minimum, maximum, by, at) SELECT i.id, p.id, 1, 3, 'bench', now() FROM (SELECT id FROM item ORDER BY code LIMIT 60) i, place p WHERE p.kind = 'van'`,
  );
}
