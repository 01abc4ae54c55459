import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { CallerSource, Clock, Database } from '../../src/app/index.js';
import { FirstManager } from '../../src/people/index.js';
import { Api } from '../support/api.js';
import { startTestApp } from '../support/test-app.js';

const PASSWORD = 'a long enough password';
let app: NestFastifyApplication;
let nobody: Api;
let manager: Api;

beforeAll(async () => {
  app = await startTestApp();
  nobody = Api.of(app);
});
afterAll(() => app?.close());

const tokenIn = (path: string | null) => new URLSearchParams(path?.split('?')[1]).get('token') ?? '';

describe('the first manager', () => {
  test('is made once, with the link that an empty service gives at start', async () => {
    const link = await app.get(FirstManager).linkIfNeeded();
    expect(link).toMatch(/^\/first-manager\?token=[\w-]{43}$/);
    const account = { token: tokenIn(link), name: ' Maja Lind ', email: 'Maja@Example.org', password: PASSWORD };
    await nobody.post('/api/first-manager', { ...account, token: 'guessed' }).expect(410);
    await nobody.post('/api/first-manager', { ...account, password: 'short' }).expect(400);
    const answer = await nobody.post('/api/first-manager', account).expect(200);
    expect(answer.body).toMatchObject({ name: 'Maja Lind', email: 'maja@example.org', role: 'manager', clientId: null, siteId: null, demo: false });
    manager = nobody.with(answer);
    await manager.get('/api/session').expect(200, answer.body);
    await nobody.post('/api/first-manager', account).expect(410);
    expect(await app.get(FirstManager).linkIfNeeded()).toBeNull();
  });
});

describe('signing in', () => {
  test('gives a session in a cookie that scripts cannot read', async () => {
    const answer = await nobody.post('/api/session', { email: 'MAJA@example.org ', password: PASSWORD }).expect(200);
    expect(answer.get('set-cookie')?.[0]).toMatch(/^skidkeep_session=[\w-]{43}; Path=\/; Expires=[^;]+; HttpOnly; SameSite=Lax$/);
    const person = nobody.with(answer);
    await person.get('/api/session').expect(200);
    await person.delete('/api/session').expect(204);
    await person.get('/api/session').expect(401);
  });

  test('marks the cookie as secure behind a proxy that speaks https', async () => {
    const answer = await nobody.post('/api/session', { email: 'maja@example.org', password: PASSWORD }).set('x-forwarded-proto', 'https').expect(200);
    expect(answer.get('set-cookie')?.[0]).toContain('; Secure');
  });

  test('survives nonsense', async () => {
    for (const body of [{ email: 'a\0@b.c', password: 'x' }, { email: 7, password: 'x' }, { email: 'a@b.c', password: {} }, {}, []]) {
      await nobody.post('/api/session', body).expect(400);
    }
    await nobody.call('post', '/api/session').set('content-type', 'application/json').send('{"email":').expect(400);
    await nobody.call('get', '/api/session').set('cookie', 'skidkeep_session=%00').expect(401);
    await nobody.call('get', '/api/session').set('authorization', 'Bearer \u00ff').expect(401);
    await nobody.post('/api/invitations/%00', { password: PASSWORD }).expect(410);
  });

  test('says the same of an unknown address and of a wrong password', async () => {
    const unknown = await nobody.post('/api/session', { email: 'who@example.org', password: PASSWORD }).set('x-forwarded-for', '192.0.2.1').expect(401);
    const wrong = await nobody.post('/api/session', { email: 'maja@example.org', password: 'not it' }).set('x-forwarded-for', '192.0.2.1').expect(401);
    expect(wrong.body).toEqual(unknown.body);
    expect(wrong.get('set-cookie')).toBeUndefined();
  });
});

describe('people', () => {
  const technician = { name: 'Tarek Öz', email: 'tarek@example.org', role: 'technician' };

  test('are invited with a link, once, and set their own password', async () => {
    const { body } = await manager.post('/api/people', technician).expect(201);
    expect(body.person).toMatchObject({ ...technician, hasPassword: false, endedAt: null, version: 1 });
    expect(body.path).toMatch(/^\/invitation\/[\w-]{43}$/);
    await nobody.post(`/api${body.path.replace('invitation', 'invitations')}`, { password: 'eleven char' }).expect(400);
    const answer = await accept(body.path, PASSWORD);
    expect(answer.body).toMatchObject({ name: 'Tarek Öz', role: 'technician' });
    const person = nobody.with(answer);
    await person.get('/api/session').expect(200);
    await person.get('/api/people').expect(403);
    await nobody.post(`/api/invitations/${body.path.split('/').pop()}`, { password: PASSWORD }).expect(410);
  });

  test('have one account for each address, whatever its case', async () => {
    const { body } = await manager.post('/api/people', { ...technician, email: 'TAREK@example.org' }).expect(409);
    expect(body).toMatchObject({ code: 'request/conflict', errors: [{ pointer: '#/email' }] });
  });

  test.each([
    ['no name', { name: ' ' }, '#/name'],
    ['no text', { name: 7 }, '#/name'],
    ['U+0000', { name: 'a\0b' }, '#/name'],
    ['no address', { email: 'x@' }, '#/email'],
    ['a gateway', { role: 'gateway' }, '#/role'],
    ['no client', { role: 'client' }, '#/clientId'],
    ['a client too many', { clientId: '0192f0c1-2345-7678-9abc-def012345678' }, '#/clientId'],
    ['a site too many', { siteId: '0192f0c1-2345-7678-9abc-def012345678' }, '#/siteId'],
    ['no UUID', { role: 'client', clientId: '7' }, '#/clientId'],
    ['a field that is not known', { admin: true }, '#/admin'],
  ])('are refused with %s, by name of the field', async (_, change, pointer) => {
    const { body } = await manager.post('/api/people', { ...technician, email: 'new@example.org', ...change }).expect(400);
    expect(body.errors.map((fault: { pointer: string }) => fault.pointer)).toEqual([pointer]);
  });

  test('are edited by whoever has seen the latest version', async () => {
    const person = (await manager.get('/api/people?find=tarek').expect(200)).body.items[0];
    const read = await manager.get(`/api/people/${person.id}`).expect(200);
    expect(read.get('etag')).toBe(`"${person.version}"`);
    const edited = await manager.patch(`/api/people/${person.id}`, person.version, { role: 'storekeeper' }).expect(200);
    expect(edited.body).toEqual({ ...person, role: 'storekeeper', version: person.version + 1 });
    await manager.patch(`/api/people/${person.id}`, person.version, { role: 'manager' }).expect(412);
    await manager.call('patch', `/api/people/${person.id}`).send({ role: 'manager' }).expect(428);
    await manager.patch(`/api/people/${person.id}`, edited.body.version, { name: null }).expect(400);
    await manager.patch(`/api/people/${person.id}`, edited.body.version, { mayEnterReadings: null }).expect(400);
    await manager.patch('/api/people/0192f0c1-2345-7678-9abc-def012345678', 1, { role: 'manager' }).expect(404);
    await manager.get('/api/people/7').expect(400);
  });

  test('get another link when they lost the password, which ends the sessions of the old one', async () => {
    const tarek = await nobody.signIn('tarek@example.org', PASSWORD);
    const { id } = (await tarek.get('/api/session')).body;
    const first = (await manager.post(`/api/people/${id}/invitation`).expect(201)).body;
    const second = (await manager.post(`/api/people/${id}/invitation`).expect(201)).body;
    await nobody.post(`/api${first.path.replace('invitation', 'invitations')}`, { password: PASSWORD }).expect(410);
    await accept(second.path, 'quite another password');
    await tarek.get('/api/session').expect(401);
    await nobody.post('/api/session', { email: 'tarek@example.org', password: PASSWORD }).expect(401);
    await nobody.signIn('tarek@example.org', 'quite another password');
  });

  test('are signed out when they end, and cannot come back', async () => {
    const tarek = await nobody.signIn('tarek@example.org', 'quite another password');
    const { id } = (await tarek.get('/api/session')).body;
    const { version } = (await manager.get(`/api/people/${id}`)).body;
    await manager.call('post', `/api/people/${id}/end`).expect(428);
    await manager.call('post', `/api/people/${id}/end`).set('if-match', `"${version}"`).expect(204);
    await tarek.get('/api/session').expect(401);
    await nobody.post('/api/session', { email: 'tarek@example.org', password: 'quite another password' }).expect(401);
    await manager.post(`/api/people/${id}/invitation`).expect(400);
    expect((await manager.get('/api/people')).body.items.map((person: { name: string }) => person.name)).toEqual(['Maja Lind']);
    expect((await manager.get('/api/people?ended=true')).body.items[0]).toMatchObject({ id, name: 'Tarek Öz' });
  });

  test('always keep one manager who can sign in', async () => {
    const maja = (await manager.get('/api/session')).body.id;
    await manager.post('/api/people', { name: 'Not in yet', email: 'later@example.org', role: 'manager' }).expect(201);
    const refused = await manager.call('post', `/api/people/${maja}/end`).set('if-match', '"1"').expect(409);
    expect(refused.body.code).toBe('people/last-manager');
    await manager.patch(`/api/people/${maja}`, 1, { role: 'technician' }).expect(409);
    await manager.get('/api/people').expect(200);
  });

  test('are listed page by page, each once', async () => {
    for (const [n, name] of ['Zoë', 'Åke', 'Ana', 'ana'].entries()) {
      await manager.post('/api/people', { name, email: `listed${n}@example.org`, role: 'technician' }).expect(201);
    }
    const names: string[] = [];
    let cursor = '';
    do {
      const { body } = await manager.get(`/api/people?limit=2${cursor}`).expect(200);
      names.push(...body.items.map((person: { name: string }) => person.name));
      cursor = body.next === null ? '' : `&cursor=${body.next}`;
    } while (cursor !== '');
    expect(new Set(names)).toEqual(new Set(['Maja Lind', 'Not in yet', 'Zoë', 'Åke', 'Ana', 'ana']));
    expect(names).toHaveLength(6);
    await manager.get(`/api/people?cursor=${Buffer.from('["x","y"]').toString('base64url')}`).expect(400);
    await manager.get('/api/people?limit=0').expect(400);
    await manager.get('/api/people?colour=red').expect(400);
  });
});

describe('an invitation', () => {
  const invite = async (email: string) => (await manager.post('/api/people', { name: 'Noa Vint', email, role: 'technician' }).expect(201)).body;
  const linkOf = (path: string) => `/api${path.replace('invitation', 'invitations')}`;

  test('says for whom it is and until when, to whoever holds the link', async () => {
    const { path, person, expiresAt } = await invite('noa@example.org');
    expect((await nobody.get(linkOf(path)).expect(200)).body).toEqual({ name: 'Noa Vint', expiresAt });
    expect((await manager.get(`/api/people/${person.id}`)).body.invitedUntil).toBe(expiresAt);
    await accept(path, PASSWORD);
    const { body } = await nobody.get(linkOf(path)).expect(410);
    expect(body.title).toMatch(/was used on .+\. Sign in with your e-mail address and password/);
    expect((await manager.get(`/api/people/${person.id}`)).body).toMatchObject({ invitedUntil: null, hasPassword: true });
  });

  test('is good for seven days, then says what to do, and another one can be given', async () => {
    const { path, person } = await invite('noa.late@example.org');
    app.get(Clock).now = () => new Date(Date.now() + 7 * 86_400_000 + 1);
    const look = await nobody.get(linkOf(path)).expect(410);
    const used = await nobody.post(linkOf(path), { password: PASSWORD }).expect(410);
    expect(used.body).toEqual(look.body);
    expect(used.body).toMatchObject({ code: 'people/link-not-valid', title: expect.stringMatching(/good for 7 days, until .+\. Ask a manager for a new one/) });
    app.get(Clock).now = () => new Date();
    const again = (await manager.post(`/api/people/${person.id}/invitation`).expect(201)).body;
    await accept(again.path, PASSWORD);
  });

  test('can be withdrawn', async () => {
    const { path, person } = await invite('noa.not@example.org');
    await manager.delete(`/api/people/${person.id}/invitation`).expect(204);
    const { body } = await nobody.post(linkOf(path), { password: PASSWORD }).expect(410);
    expect(body.title).toContain('it was withdrawn. Ask a manager for a new one');
    expect((await manager.get(`/api/people/${person.id}`)).body.invitedUntil).toBeNull();
    await manager.delete('/api/people/0192f0c1-2345-7678-9abc-def012345678/invitation').expect(404);
  });
});

describe('guessing passwords', () => {
  const tries = (email: string, address: string) => nobody.post('/api/session', { email, password: 'guess' }).set('x-forwarded-for', address);

  test('is slowed down for an account, from wherever it comes, and ends after five minutes', async () => {
    await nobody.signIn('maja@example.org', PASSWORD); // which forgets the tries that failed before
    for (let n = 0; n < 10; n++) await tries('maja@example.org', `192.0.2.${n}`).expect(401);
    const { body } = await tries('maja@example.org', '192.0.2.99').expect(429);
    expect(body.code).toBe('people/too-many-tries');
    await nobody.post('/api/session', { email: 'maja@example.org', password: PASSWORD }).expect(429);
    app.get(Clock).now = () => new Date(Date.now() + 5 * 60_000 + 1);
    await nobody.signIn('maja@example.org', PASSWORD);
    app.get(Clock).now = () => new Date();
  });

  test('is slowed down for an address, whatever account it tries', async () => {
    for (let n = 0; n < 10; n++) await tries(`person${n}@example.org`, '198.51.100.1').expect(401);
    await tries('another@example.org', '198.51.100.1').expect(429);
    await tries('another@example.org', '198.51.100.2').expect(401);
  });

  test('does not count those who know the password', async () => {
    for (let n = 0; n < 12; n++)
      await nobody.post('/api/session', { email: 'maja@example.org', password: PASSWORD }).set('x-forwarded-for', '203.0.113.1').expect(200);
  });
});

describe('a session', () => {
  test('ends after fourteen days', async () => {
    const person = await nobody.signIn('maja@example.org', PASSWORD);
    app.get(Clock).now = () => new Date(Date.now() + 14 * 86_400_000 - 60_000);
    await person.get('/api/session').expect(200);
    app.get(Clock).now = () => new Date(Date.now() + 14 * 86_400_000);
    await person.get('/api/session').expect(401);
    app.get(Clock).now = () => new Date();
  });

  test('cannot be used by a page of another origin, nor without an origin', async () => {
    await manager.call('post', '/api/people').set('origin', 'https://elsewhere.example').send({}).expect(403);
    await manager.call('post', '/api/people').unset('origin').send({}).expect(403);
  });

  test('is kept as a hash only', async () => {
    const stored = await app.get(Database).prisma.session.findMany();
    expect(stored.length).toBeGreaterThan(0);
    for (const { tokenHash } of stored) expect(tokenHash).toMatch(/^[0-9a-f]{64}$/);
  });
});

describe('a gateway', () => {
  test('has a key for one site, told once, which opens nothing else and can be ended', async () => {
    const { prisma } = app.get(Database);
    const client = await prisma.client.create({ data: { name: 'Alder Dairy' } });
    const site = await prisma.site.create({ data: { clientId: client.id, name: 'North works', timeZone: 'Europe/Berlin' } });
    await manager.post('/api/gateway-keys', { siteId: client.id, name: 'PLC' }).expect(400);
    const { body } = await manager.post('/api/gateway-keys', { siteId: site.id, name: 'PLC' }).expect(201);
    expect(body.gatewayKey).toMatchObject({ siteId: site.id, siteName: 'North works', name: 'PLC', createdBy: 'Maja Lind', endedAt: null });
    const callers = app.get(CallerSource);
    expect(await callers.find({ sessionToken: undefined, bearer: body.key })).toEqual({
      id: body.gatewayKey.id,
      name: 'PLC',
      role: 'gateway',
      clientId: null,
      siteId: site.id,
      mayEnterReadings: true,
    });
    const withKey = (path: string) => nobody.get(path).set('authorization', `Bearer ${body.key}`);
    await withKey('/api/session').expect(403);
    await withKey('/api/people').expect(403);
    // The key alone counts: a session beside it opens nothing.
    const unknown = await manager.get('/api/people').set('authorization', 'Bearer wrong').expect(401);
    expect(unknown.body).toMatchObject({ code: 'people/key-not-known', title: expect.stringContaining('Check that the whole key was copied') });
    expect((await manager.get(`/api/gateway-keys?siteId=${site.id}`)).body.items[0].lastUsedAt).not.toBeNull();
    await manager.post(`/api/gateway-keys/${body.gatewayKey.id}/end`).expect(204);
    const refused = await withKey('/api/session').expect(401);
    expect(refused.body).toMatchObject({ code: 'people/key-withdrawn' });
    expect(refused.body.title).toMatch(/^The key "PLC" of North works was withdrawn on .+ by Maja Lind\. Ask Maja Lind or another manager for a new key$/);
    const list = await manager.get(`/api/gateway-keys?siteId=${site.id}`).expect(200);
    expect(list.body.items).toHaveLength(1);
    expect(list.body.items[0]).toMatchObject({ endedAt: expect.any(String), endedBy: 'Maja Lind', lastUsedAt: expect.any(String) });
    expect(JSON.stringify(list.body)).not.toContain(body.key);
    await manager.post('/api/gateway-keys/0192f0c1-2345-7678-9abc-def012345678/end').expect(404);
  });
});

describe('a client’s person', () => {
  test('belongs to a client and to no site but theirs, and is shut out when the client ends', async () => {
    const { prisma } = app.get(Database);
    const [alder, birch] = await Promise.all(['Alder', 'Birch'].map((name) => prisma.client.create({ data: { name: `${name} Brewing` } })));
    if (alder === undefined || birch === undefined) throw new Error('two clients were made');
    const site = await prisma.site.create({ data: { clientId: birch.id, name: 'South works', timeZone: 'Europe/Berlin' } });
    const person = { name: 'Olga', email: 'olga@example.org', role: 'client', clientId: alder.id };
    await manager.post('/api/people', { ...person, siteId: site.id }).expect(400);
    const { body } = await manager.post('/api/people', person).expect(201);
    const answer = await accept(body.path, PASSWORD, 'Olga Berg');
    expect(answer.body).toMatchObject({ name: 'Olga Berg', role: 'client', clientId: alder.id, clientName: 'Alder Brewing', mayEnterReadings: false });
    const olga = nobody.with(answer);
    await prisma.client.update({ where: { id: alder.id }, data: { endedOn: new Date('2020-01-31') } });
    await olga.get('/api/session').expect(401);
  });
});

function accept(path: string, password: string, name?: string) {
  return nobody.post(`/api${path.replace('invitation', 'invitations')}`, { password, ...(name === undefined ? {} : { name }) }).expect(200);
}
