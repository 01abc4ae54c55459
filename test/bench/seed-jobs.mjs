/** Jobs to be finished: 100 skids with a pump and its meter, a van with ten items in stock, and as many open jobs as the measurement finishes. */
import pg from 'pg';

const SKIDS = 100;
const ITEMS = 10;
/** Two numbers of callers, three runs each, 50 calls to warm up and 1,000 to measure. */
const JOBS = 2 * 3 * 1050;

export async function seedJobs(databaseUrl) {
  const client = new pg.Client({ connectionString: databaseUrl });
  await client.connect();
  const run = (sql, values) => client.query(sql, values);
  await run('BEGIN');
  await run(`INSERT INTO client (id, name) VALUES (gen_random_uuid(), 'Client')`);
  await run(`INSERT INTO site (id, client_id, name, time_zone) SELECT gen_random_uuid(), id, 'Site', 'Europe/Madrid' FROM client`);
  await run(`INSERT INTO skid (id, client_id, site_id, name) SELECT gen_random_uuid(), client_id, id, 'Skid ' || n FROM site, generate_series(1, $1) n`, [
    SKIDS,
  ]);
  await run(`INSERT INTO position (id, client_id, skid_id, kind, name) SELECT gen_random_uuid(), client_id, id, 'feed pump', 'Feed pump' FROM skid`);
  await run(`INSERT INTO meter (id, client_id, position_id, kind) SELECT gen_random_uuid(), client_id, id, 'run hours' FROM position`);
  await run(`INSERT INTO item (id, code, name, kind) SELECT gen_random_uuid(), 'B-' || n, 'Item ' || n, 'seal' FROM generate_series(1, $1) n`, [ITEMS]);
  await run(`INSERT INTO place (id, name, kind) VALUES (gen_random_uuid(), 'Store', 'store')`);
  await run(
    `INSERT INTO stock_post (id, kind, at, by_id, by, note, request_hash) VALUES (gen_random_uuid(), 'receive', now() - interval '1 year', gen_random_uuid(), 'bench', '', '')`,
  );
  await run(`INSERT INTO stock_move (post_id, item_id, quantity, to_place_id) SELECT p.id, i.id, 1000000, place.id FROM stock_post p, item i, place`);
  await run(`INSERT INTO stock_balance (place_id, item_id, on_hand) SELECT to_place_id, item_id, quantity FROM stock_move`);
  await run(
    `INSERT INTO job (id, client_id, site_id, skid_id, kind, title, created_by)
     SELECT gen_random_uuid(), s.client_id, s.site_id, s.id, 'service', 'Job ' || n, 'bench' FROM generate_series(1, $1) n JOIN (SELECT *, row_number() OVER (ORDER BY id) AS at FROM skid) s ON s.at = 1 + n % $2`,
    [JOBS, SKIDS],
  );
  await run(
    `INSERT INTO job_task (id, job_id, client_id, place, task, position_id) SELECT gen_random_uuid(), j.id, j.client_id, 1, j.title, p.id FROM job j JOIN position p ON p.skid_id = j.skid_id`,
  );
  await run('COMMIT');
  await run('ANALYZE');
  const { rows: jobs } = await run(`SELECT j.id, t.id AS "taskId" FROM job j JOIN job_task t ON t.job_id = j.id ORDER BY j.no`);
  const items = (await run('SELECT id FROM item')).rows.map(({ id }) => id);
  const [{ id: placeId }] = (await run('SELECT id FROM place')).rows;
  await client.end();
  return { jobs, items, placeId };
}
