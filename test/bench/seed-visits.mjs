/** Work to be planned: so many sites in a country of 300 by 300 km with one due each, over so many weeks, and people in its middle who work on weekdays. */
import pg from 'pg';

export const SMALL = { visits: 500, technicians: 12, weeks: 4 };
export const LARGE = { visits: 2000, technicians: 30, weeks: 8 };

export const seedVisits = (databaseUrl) => fillUp(databaseUrl, SMALL);

/** What is missing to so many. */
export async function fillUp(databaseUrl, { visits, technicians, weeks }) {
  const client = new pg.Client({ connectionString: databaseUrl });
  await client.connect();
  const run = (sql, values) => client.query(sql, values);
  const count = async (table) => Number((await run(`SELECT count(*) AS n FROM ${table}`)).rows[0].n);
  await run('BEGIN');
  await run('SELECT setseed(0.5)');
  if ((await count('client')) === 0) await run(`INSERT INTO client (id, name) VALUES (gen_random_uuid(), 'Client')`);
  await run(
    `INSERT INTO site (id, client_id, name, time_zone, latitude, longitude)
     SELECT gen_random_uuid(), c.id, 'Site ' || n, 'Europe/Madrid', 40 + 2.7 * random(), -5 + 3.5 * random() FROM client c, generate_series($1::int, $2::int) n`,
    [(await count('site')) + 1, visits],
  );
  await run(
    `INSERT INTO skid (id, client_id, site_id, name) SELECT gen_random_uuid(), s.client_id, s.id, 'Skid at ' || s.name FROM site s WHERE NOT EXISTS (SELECT 1 FROM skid WHERE site_id = s.id)`,
  );
  await run(
    `INSERT INTO person (id, name, email, role) SELECT gen_random_uuid(), 'Technician ' || n, 't' || n || '@example.org', 'technician' FROM generate_series($1::int, $2::int) n`,
    [(await count("person WHERE role = 'technician'")) + 1, technicians],
  );
  await run(
    `INSERT INTO person_planning (person_id, latitude, longitude, work_days, shift_from, regular_until, shift_until, most_nights)
     SELECT id, 40.4 + 1.9 * random(), -4.5 + 2.5 * random(), '{1,2,3,4,5}', '07:30', '16:30', '18:00', 0 FROM person WHERE role = 'technician' AND id NOT IN (SELECT person_id FROM person_planning)`,
  );
  await run('DELETE FROM due');
  await run(
    `INSERT INTO due (id, client_id, skid_no, task, "limit", earliest_on, best_on, latest_on, reason, computed_from, expected_minutes, computed_at)
     SELECT gen_random_uuid(), client_id, no, 'Yearly service', 'calendar', current_date, current_date + day, current_date + day + 7, 'A year has passed', '[]', 45 + (random() * 90)::int, now()
       FROM (SELECT *, (random() * $1)::int AS day FROM skid) s`,
    [weeks * 7 - 1],
  );
  await run('COMMIT');
  await run('ANALYZE');
  await client.end();
}

/** A breakdown without water at some skid, as a job that waits for a visit. */
export async function breakSomething(databaseUrl) {
  const client = new pg.Client({ connectionString: databaseUrl });
  await client.connect();
  const { rows } = await client.query(
    `INSERT INTO job (id, client_id, site_id, skid_id, kind, title, latest_on, created_by)
     SELECT gen_random_uuid(), client_id, site_id, id, 'breakdown', 'No water', current_date + 2, 'bench' FROM skid ORDER BY no DESC LIMIT 1 RETURNING id`,
  );
  await client.end();
  return rows[0].id;
}
