import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
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

  test('says the same of an unknown address and of a wrong password', async () => {
    const unknown = await nobody.post('/api/session', { email: 'who@example.org', password: PASSWORD }).set('x-forwarded-for', '192.0.2.1').expect(401);
    const wrong = await nobody.post('/api/session', { email: 'maja@example.org', password: 'not it' }).set('x-forwarded-for', '192.0.2.1').expect(401);
    expect(wrong.body).toEqual(unknown.body);
    expect(wrong.get('set-cookie')).toBeUndefined();
  });
});
