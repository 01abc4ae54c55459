import { randomUUID } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Database } from '../../src/app/index.js';
import { hashOfToken } from '../../src/people/tokens.js';
import { Api } from '../support/api.js';
import { makeRecords } from '../support/records-of-client.js';
import { type KnownRoute, routesOf } from '../support/routes.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';
import { WHO_MAY } from '../support/who-may.js';

/** What a client may read in the database. Everything else has no grant; a new table must be added here with its policy. */
const TABLES_OF_CLIENTS = [
  'attachment',
  'breakdown',
  'calibration',
  'clean',
  'client',
  'client_delivery',
  'daily_condition',
  'doubtful_span',
  'due',
  'fibre_repair',
  'fitting',
  'hand_reading',
  'hand_value',
  'integrity_test',
  'item',
  'job',
  'job_change',
  'job_report',
  'job_task',
  'load',
  'machine_condition',
  'meter',
  'meter_reading',
  'outlook',
  'outlook_score',
  'part',
  'position',
  'rule_override',
  'service_entry',
  'service_state_change',
  'shared_service',
  'site',
  'skid',
  'skid_area',
  'skid_condition',
  'tank',
  'tank_assay',
  'tank_cover',
  'tank_delivery',
  'tank_dip',
  'tank_user',
  'visit',
  'visit_answer',
  'visit_change',
  'visit_person',
];

/** What a client's people may write: for their own client, an operator for their own site, and of themselves. */
const CLIENT_WRITES = [
  'DELETE /api/me/calendar-addresses/:id',
  'POST /api/announcements/:id/call-off',
  'POST /api/breakdowns',
  'POST /api/calculators/batch',
  'POST /api/calculators/contact-time',
  'POST /api/calculators/dose',
  'POST /api/calculators/together',
  'POST /api/me/calendar-addresses',
  'POST /api/proposed-visits/:id/confirm',
  'POST /api/proposed-visits/:id/decline',
  'POST /api/requests',
  'POST /api/requests/:jobId/notes',
  'POST /api/skids/:skidId/hand-readings',
  'POST /api/skids/:skidId/hand-readings/paste',
  'POST /api/tanks/:tankId/announcements',
  'POST /api/tanks/:tankId/assays',
  'POST /api/tanks/:tankId/deliveries',
  'POST /api/tanks/:tankId/dips',
  'PUT /api/attachments/:id',
  'PUT /api/me/notices',
];
const GATEWAY_ROUTES = ['POST /api/gateway/batches'];

let app: NestFastifyApplication;
let database: Database;
let routes: KnownRoute[];
let alder: SmallSkid;
let birch: SmallSkid;
let callers: Record<'manager' | 'storekeeper' | 'technician' | 'client', Api>;
let gatewayKey: string;

beforeAll(async () => {
  app = await startTestApp();
  database = app.get(Database);
  routes = routesOf(app);
  [alder, birch] = (await Promise.all(['Alder', 'Birch'].map((name) => makeSkids(app, name, 1).then(([skid]) => skid)))) as [SmallSkid, SmallSkid];
  const client = await signInAs(app, 'client', { clientId: alder.clientId, mayEnterReadings: true });
  callers = { manager: await signInAs(app, 'manager'), storekeeper: await signInAs(app, 'storekeeper'), technician: await signInAs(app, 'technician'), client };
  gatewayKey = randomUUID();
  await database.prisma.gatewayKey.create({ data: { siteId: alder.siteId, name: 'PLC', keyHash: hashOfToken(gatewayKey), createdBy: 'Test' } });
});
afterAll(() => app?.close());

const open = (route: KnownRoute) => route.allowed === 'anyone';
const may = ({ allowed }: KnownRoute, role: string) => (allowed === 'signed in' ? role !== 'gateway' : allowed?.includes(role as 'manager') === true);
const told = ({ method, path }: KnownRoute) => `${method} ${path}`;
const send = (by: Api, { method, path }: KnownRoute, id: () => string = randomUUID) =>
  by.call(
    method.toLowerCase() as 'get',
    path.replace(/:\w+/g, () => id()),
  );

describe('every route', () => {
  test('says who may call it', () => {
    expect(routes.length).toBeGreaterThan(40);
    expect(routes.filter(({ allowed }) => allowed === undefined).map(told)).toEqual([]);
  });

  test('is one of the declared table, with those who may call it', () => {
    const declared = Object.entries(WHO_MAY).flatMap(([who, list]) => list.map((route) => `${route}: ${who}`));
    const found = routes.map((route) => `${told(route)}: ${typeof route.allowed === 'string' ? route.allowed : route.allowed?.join(', ')}`);
    expect(found.sort()).toEqual(declared.sort());
  });

  test('is described in the API, and nothing else is', () => {
    const { paths } = JSON.parse(readFileSync('src/web/api/openapi.json', 'utf8')) as { paths: Record<string, object> };
    const described = Object.entries(paths).flatMap(([path, methods]) => Object.keys(methods).map((method) => `${method.toUpperCase()} ${path}`));
    expect(routes.map((route) => told(route).replaceAll(/:(\w+)/g, '{$1}')).sort()).toEqual(described.sort());
  });

  test('that needs no sign-in is one of few', () => {
    expect(routes.filter(open).map(told).sort()).toEqual([
      'DELETE /api/session',
      'GET /api/calendar/:file',
      'GET /api/health',
      'GET /api/invitations/:token',
      'POST /api/first-manager',
      'POST /api/invitations/:token',
      'POST /api/session',
    ]);
  });

  test('with which a client writes is one of few', () => {
    const writes = routes.filter((route) => route.method !== 'GET' && !open(route) && may(route, 'client'));
    expect(writes.map(told).sort()).toEqual(CLIENT_WRITES);
  });

  test('of a gateway is one of few', () => {
    expect(
      routes
        .filter((route) => !open(route) && may(route, 'gateway'))
        .map(told)
        .sort(),
    ).toEqual(GATEWAY_ROUTES);
  });

  test('refuses whoever is not signed in', async () => {
    for (const route of routes.filter((each) => !open(each))) {
      const { status } = await send(Api.of(app), route);
      expect(`${told(route)} ${status}`).toBe(`${told(route)} 401`);
    }
  });

  test.each(['manager', 'storekeeper', 'technician', 'client', 'gateway'] as const)('lets a %s through when it says so, and only then', async (role) => {
    for (const route of routes.filter((each) => !open(each))) {
      const request = role === 'gateway' ? send(Api.of(app), route).set('authorization', `Bearer ${gatewayKey}`) : send(callers[role], route);
      const { body } = await request.send(route.method === 'GET' ? undefined : {});
      const refused = body?.title === `A ${role} may not do this`;
      expect(`${told(route)} ${refused ? 'refused' : 'let through'}`).toBe(`${told(route)} ${may(route, role) ? 'let through' : 'refused'}`);
    }
  });
});

describe('a client', () => {
  let ofBirch: string[];

  beforeAll(async () => {
    const item = await database.prisma.item.create({ data: { code: 'I-1', name: 'Seal', kind: 'seal' } });
    await makeRecords(app, alder, 'Alder', item.id);
    ofBirch = await makeRecords(app, birch, 'Birch', item.id);
  });

  test('reads what is its own', async () => {
    for (const path of [
      '/api/clients',
      '/api/sites',
      '/api/skids',
      '/api/positions',
      '/api/parts',
      '/api/meters',
      '/api/tanks',
      '/api/fleet',
      '/api/dues',
      '/api/tanks/cover',
      '/api/jobs',
      '/api/visits',
      '/api/breakdowns',
    ]) {
      const { body } = await callers.client.get(path).expect(200);
      expect([path, body.items.length]).toEqual([path, 1]);
      expect(JSON.stringify(body)).toMatch(/Alder|run hours/);
    }
  });

  test('finds nothing of another client in any list', async () => {
    const lists = routes.filter((route) => route.method === 'GET' && !route.path.includes(':') && may(route, 'client'));
    expect(lists.length).toBeGreaterThan(8);
    for (const route of lists) {
      for (const query of ['', `?skidId=${birch.id}`, `?clientId=${birch.clientId}`, `?siteId=${birch.siteId}`, '?find=Birch']) {
        const { text, status } = await callers.client.get(`${route.path}${query}`);
        if (status === 400 || status === 404) continue; // no such filter, or no such record for this caller: the refusal repeats what was asked for
        expect(`${told(route)}${query} ${hasBirch(text) ? text : ''}`).toBe(`${told(route)}${query} `);
      }
    }
  });

  test('finds nothing of another client under any address', async () => {
    const reads = routes.filter((route) => route.method === 'GET' && route.path.includes(':') && may(route, 'client'));
    expect(reads.length).toBeGreaterThan(8);
    for (const route of reads) {
      for (const id of ofBirch) {
        const { text } = await send(callers.client, route, () => id);
        const shown = text.replaceAll(id, ''); // a refusal names the id that was asked for
        expect(`${told(route)} ${hasBirch(shown) ? text : ''}`).toBe(`${told(route)} `);
      }
    }
    expect((await callers.manager.get(`/api/skids/${birch.id}`).expect(200)).text).toContain('Birch');
    await callers.client.get(`/api/skids/${birch.id}`).expect(404);
  });

  const hasBirch = (text: string) => text.includes('Birch') || ofBirch.some((id) => text.includes(id));
});

describe('in the database', () => {
  const rows = async <Row extends object>(sql: string) => (await database.pool.query<Row>(sql)).rows;
  const asClient = (clientId: string) => ({ id: randomUUID(), name: 'X', role: 'client' as const, clientId, siteId: null, mayEnterReadings: false });

  test('a client reads the declared tables and no other, views and partitions included', async () => {
    await database.pool.query('SELECT ensure_sample_month(now())');
    const readable = await rows<{ name: string }>(
      `SELECT c.relname AS name FROM pg_class c JOIN pg_namespace n ON n.oid = c.relnamespace
        WHERE n.nspname NOT IN ('pg_catalog', 'information_schema', 'pg_toast') AND c.relkind IN ('r', 'p', 'v', 'm', 'f')
          AND (has_table_privilege('skidkeep_client', c.oid, 'SELECT') OR has_any_column_privilege('skidkeep_client', c.oid, 'SELECT')) ORDER BY name`,
    );
    expect(readable.map(({ name }) => name)).toEqual(TABLES_OF_CLIENTS);
    const partitions = await rows<{ relname: string }>(`SELECT relname FROM pg_class WHERE relispartition AND relkind = 'r'`);
    expect(partitions.length).toBeGreaterThan(0);
  });

  test('each of these has row-level security and a policy for the client', async () => {
    const guarded = await rows<{ name: string }>(
      `SELECT c.relname AS name FROM pg_class c WHERE c.relrowsecurity AND EXISTS (
         SELECT 1 FROM pg_policies p WHERE p.tablename = c.relname AND 'skidkeep_client' = ANY(p.roles) AND p.cmd = 'SELECT') ORDER BY name`,
    );
    expect(guarded.map(({ name }) => name)).toEqual(TABLES_OF_CLIENTS);
  });

  test('a client writes nothing', async () => {
    const writable = await rows(
      `SELECT c.relname FROM pg_class c JOIN pg_namespace n ON n.oid = c.relnamespace WHERE n.nspname IN ('public', 'pgboss') AND c.relkind IN ('r', 'p', 'v')
          AND (has_table_privilege('skidkeep_client', c.oid, 'INSERT, UPDATE, DELETE, TRUNCATE') OR has_any_column_privilege('skidkeep_client', c.oid, 'INSERT, UPDATE'))`,
    );
    expect(writable).toEqual([]);
    await expect(
      database.readFor(asClient(alder.clientId), (reader) => reader.client.update({ where: { id: alder.clientId }, data: { note: 'mine' } })),
    ).rejects.toThrow(/permission denied/);
  });

  test('neither role passes over the policies or owns a table', async () => {
    expect(await rows(`SELECT rolname, rolsuper, rolbypassrls FROM pg_roles WHERE rolname IN ('skidkeep_app', 'skidkeep_client') ORDER BY rolname`)).toEqual([
      { rolname: 'skidkeep_app', rolsuper: false, rolbypassrls: false },
      { rolname: 'skidkeep_client', rolsuper: false, rolbypassrls: false },
    ]);
    expect(await rows(`SELECT tablename FROM pg_tables WHERE schemaname = 'public' AND tableowner IN ('skidkeep_app', 'skidkeep_client')`)).toEqual([]);
  });

  test('role and client end with the transaction, whoever reads at the same time', async () => {
    const clients = [alder, birch];
    const seen = await Promise.all(
      Array.from({ length: 40 }, (_, n) => {
        const { clientId } = clients[n % 2] as SmallSkid;
        return database
          .readFor(asClient(clientId), (reader) => reader.skid.findMany())
          .then((skids) => skids.every((skid) => skid.clientId === clientId) && skids.length);
      }),
    );
    expect(seen).toEqual(Array.from({ length: 40 }, () => 1));
    const after = await Promise.all(
      Array.from({ length: 16 }, () =>
        database.pool.query(`SELECT current_user AS role, coalesce(current_setting('skidkeep.client', true), '') AS client, pg_sleep(0.01)::text AS slept`),
      ),
    );
    for (const {
      rows: [row],
    } of after)
      expect(row).toEqual({ role: 'skidkeep_app', client: '', slept: '' });
  });

  test('a client without a name sees nothing', async () => {
    const counts = await database.prisma.$transaction(async (tx) => {
      await tx.$queryRaw`SELECT set_config('role', 'skidkeep_client', true)`;
      return [await tx.client.count(), await tx.skid.count(), await tx.part.count()];
    });
    expect(counts).toEqual([0, 0, 0]);
  });
});
