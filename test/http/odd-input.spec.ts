import { randomUUID } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Database } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { makeRecords } from '../support/records-of-client.js';
import { type KnownRoute, routesOf } from '../support/routes.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

interface Schema {
  readonly $ref?: string;
  readonly allOf?: readonly Schema[];
  readonly type?: string;
  readonly format?: string;
  readonly enum?: readonly unknown[];
  readonly items?: Schema;
  readonly properties?: Record<string, Schema>;
}

const API = JSON.parse(readFileSync('src/web/api/openapi.json', 'utf8')) as {
  paths: Record<string, Record<string, { requestBody?: { content: Record<string, { schema: Schema }> }; parameters?: { name: string; in: string }[] }>>;
  components: { schemas: Record<string, Schema> };
};

let app: NestFastifyApplication;
let manager: Api;
let ids: string[];
let routes: KnownRoute[];

beforeAll(async () => {
  app = await startTestApp();
  manager = await signInAs(app, 'manager');
  const [skid] = (await makeSkids(app, 'Alder', 1)) as [SmallSkid];
  const item = await app.get(Database).prisma.item.create({ data: { code: 'I-1', name: 'Seal', kind: 'seal' } });
  ids = [...(await makeRecords(app, skid, 'Alder', item.id)), item.id];
  routes = routesOf(app).filter(({ path }) => !path.startsWith('/api/session') && path !== '/api/first-manager');
});
afterAll(() => app?.close());

const resolved = (schema: Schema): Schema => {
  const ref = schema.$ref ?? schema.allOf?.[0]?.$ref;
  return ref === undefined ? schema : resolved(API.components.schemas[ref.split('/').at(-1) ?? ''] ?? {});
};

/** Something that the schema allows, so that what is odd about one field is reached. */
function usual(schema: Schema, depth = 0): unknown {
  const { type, format, enum: values, items, properties } = resolved(schema);
  if (values !== undefined) return values[0];
  if (type === 'array') return items === undefined || depth > 3 ? [] : [usual(items, depth + 1)];
  if (type === 'number' || type === 'integer') return 1;
  if (type === 'boolean') return true;
  if (properties !== undefined) return depth > 3 ? {} : Object.fromEntries(Object.entries(properties).map(([name, of]) => [name, usual(of, depth + 1)]));
  if (format === 'date-time') return '2026-11-20T08:00:00Z';
  return type === 'string' ? (format === 'uuid' ? randomUUID() : '1') : {};
}

const ODD: readonly unknown[] = [
  null,
  '',
  'x\0y',
  '\uD800',
  'x'.repeat(70_000),
  '2026-02-30',
  '../..',
  -1,
  0,
  0.1,
  1e308,
  2_147_483_648,
  9_007_199_254_740_991,
  true,
  [],
  [null],
  [[]],
  {},
  { toString: 1 },
  { $ne: 1 },
];

const schemaOf = ({ method, path }: KnownRoute): Schema | undefined => {
  const described = API.paths[path.replaceAll(/:(\w+)/g, '{$1}')]?.[method.toLowerCase()];
  return described?.requestBody?.content['application/json']?.schema;
};
const call = (route: KnownRoute, path: string) => manager.call(route.method.toLowerCase() as 'get', path);
const told = ({ method, path }: KnownRoute) => `${method} ${path}`;

const faults: string[] = [];
/** Collected, so that one run shows them all. */
const look = (status: number, text: string, ...what: string[]) => {
  if (status >= 500) faults.push(`${what.map((part) => part.slice(0, 60)).join(' ')}: ${text.slice(0, 200)}`);
};

describe('no route answers odd input with a fault of its own', () => {
  beforeEach(() => {
    faults.length = 0;
  });

  test('in its address', async () => {
    for (const route of routes.filter(({ path }) => path.includes(':'))) {
      for (const id of ['x', '%00', '%27--', '..%2F..', `${randomUUID()}x`, '9'.repeat(400)]) {
        const { status, text } = await call(route, route.path.replaceAll(/:\w+/g, id));
        look(status, text, told(route), id);
      }
    }
    expect(faults).toEqual([]);
  });

  test('in its query', async () => {
    for (const route of routes.filter(({ method }) => method === 'GET')) {
      const described = API.paths[route.path.replaceAll(/:(\w+)/g, '{$1}')]?.get;
      const names = (described?.parameters ?? []).filter((parameter) => parameter.in === 'query').map(({ name }) => name);
      for (const name of names) {
        for (const value of ['', '%00', '%27%3B--', '-1', '1e9', '99999999999999999999', '2026-02-30', 'W10', 'true', '%F0%9F%92%A7', 'x'.repeat(3000)]) {
          const path = route.path.replaceAll(/:\w+/g, ids[0] ?? '');
          const { status, text } = await call(route, `${path}?${name}=${value}`);
          look(status, text, told(route), name, value);
        }
      }
    }
    expect(faults).toEqual([]);
  });

  test('in its body as a whole', async () => {
    for (const route of routes.filter((each) => each.method !== 'GET')) {
      for (const body of ['null', '[]', '"x"', '1', '{', '{"a":'.repeat(200), '{"__proto__":{"x":1}}']) {
        const path = route.path.replaceAll(/:\w+/g, ids[0] ?? '');
        const { status, text } = await call(route, path).set('content-type', 'application/json').send(body);
        look(status, text, told(route), body);
      }
    }
    expect(faults).toEqual([]);
  });

  test('in each field of its body', async () => {
    for (const route of routes) {
      const schema = schemaOf(route);
      if (schema === undefined) continue;
      const body = usual(schema) as Record<string, unknown>;
      for (const [at, name] of Object.keys(resolved(schema).properties ?? {}).entries()) {
        for (const [odd, value] of ODD.entries()) {
          if ((odd + at) % 3 !== 0) continue; // fields take turns: every value meets fields of every kind
          // Ids of records of every kind take turns: most are of another kind than the route is about.
          const path = route.path.replaceAll(/:\w+/g, ids[(at + odd) % ids.length] ?? '');
          const { status, text } = await call(route, path)
            .set('if-match', '"1"')
            .send({ ...body, [name]: value });
          look(status, text, told(route), name, JSON.stringify(value));
        }
      }
    }
    expect(faults).toEqual([]);
  });
});
