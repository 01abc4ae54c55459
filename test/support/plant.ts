import { createHash, randomBytes, randomUUID } from 'node:crypto';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Database, type Role } from '../../src/app/index.js';
import { Api } from './api.js';

export interface Plant {
  readonly clientId: string;
  readonly siteId: string;
  readonly skidId: string;
  readonly pumpId: string;
  readonly meterId: string;
  readonly tankId: string;
}

/** A client with one site and one skid (dead-end, 40 m3/h): a feed pump with an hour meter, and a tank of hypochlorite. */
export async function makePlant(app: NestFastifyApplication, name: string, timeZone = 'Europe/Berlin'): Promise<Plant> {
  const plant = { clientId: randomUUID(), siteId: randomUUID(), skidId: randomUUID(), pumpId: randomUUID(), meterId: randomUUID(), tankId: randomUUID() };
  const { clientId, siteId, skidId, pumpId, meterId, tankId } = plant;
  const run = (text: string, values: unknown[]) => app.get(Database).pool.query(text, values);
  await run('INSERT INTO client (id, name) VALUES ($1, $2)', [clientId, name]);
  await run('INSERT INTO site (id, client_id, name, time_zone) VALUES ($1, $2, $3, $4)', [siteId, clientId, `${name} works`, timeZone]);
  await run(`INSERT INTO skid (id, client_id, site_id, name, rated_flow_m3h, flow_scheme, tmp_from) VALUES ($1, $2, $3, $4, 40, 'dead-end', 'pressures')`, [
    skidId,
    clientId,
    siteId,
    `${name} UF 1`,
  ]);
  await run(`INSERT INTO position (id, client_id, skid_id, kind, name) VALUES ($1, $2, $3, 'feed pump', 'Feed pump 1')`, [pumpId, clientId, skidId]);
  await run(`INSERT INTO meter (id, client_id, position_id, kind) VALUES ($1, $2, $3, 'run hours')`, [meterId, clientId, pumpId]);
  await run(
    `INSERT INTO tank (id, client_id, skid_id, name, chemical, shape, height_m, capacity_l) VALUES ($1, $2, $3, 'Hypochlorite', 'NaOCl', 'vertical-cylinder', 1.2, 1000)`,
    [tankId, clientId, skidId],
  );
  return plant;
}

/** Somebody who is signed in. A client's person belongs to the client, and to one site of it where that is given. */
export async function signedIn(
  app: NestFastifyApplication,
  role: Exclude<Role, 'gateway'>,
  of: { clientId?: string; siteId?: string; mayEnterReadings?: boolean } = {},
): Promise<Api> {
  const { pool } = app.get(Database);
  const personId = randomUUID();
  const token = randomBytes(32).toString('base64url');
  await pool.query(`INSERT INTO person (id, name, email, role, client_id, site_id, may_enter_readings) VALUES ($1, $2, $3, $4, $5, $6, $7)`, [
    personId,
    `A ${role}`,
    `${personId}@example.org`,
    role,
    of.clientId ?? null,
    of.siteId ?? null,
    of.mayEnterReadings ?? false,
  ]);
  await pool.query(`INSERT INTO session (token_hash, person_id, expires_at) VALUES ($1, $2, now() + interval '1 day')`, [hashOf(token), personId]);
  return new Api(Api.of(app).address, `skidkeep_session=${token}`);
}

const hashOf = (token: string) => createHash('sha256').update(token).digest('hex');
