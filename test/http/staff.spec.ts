import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Database } from '../../src/app/index.js';
import { makeSkids, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

let app: NestFastifyApplication;
beforeAll(async () => {
  app = await startTestApp();
});
afterAll(() => app?.close());

describe('the list of staff', () => {
  test('names those who work in the department now, without clients, addresses or those who have ended', async () => {
    const { prisma } = app.get(Database);
    const [skid] = await makeSkids(app, 'Alder', 1);
    await prisma.person.createMany({
      data: [
        { name: 'Zoe Ash', email: 'zoe@example.org', role: 'manager' },
        { name: 'Ben Oar', email: 'ben@example.org', role: 'storekeeper' },
        { name: 'Old Hand', email: 'old@example.org', role: 'technician', endedAt: new Date('2026-01-01') },
        { name: 'Ole Reed', email: 'ole@example.org', role: 'client', clientId: skid?.clientId ?? null },
      ],
    });
    const technician = await signInAs(app, 'technician');
    const { body } = await technician.get('/api/staff').expect(200);
    expect(body.map(({ name, role }: { name: string; role: string }) => `${name}: ${role}`)).toEqual([
      'A technician: technician',
      'Ben Oar: storekeeper',
      'Zoe Ash: manager',
    ]);
    expect(Object.keys(body[0]).sort()).toEqual(['id', 'name', 'role']);
    await (await signInAs(app, 'client', { clientId: skid?.clientId ?? '' })).get('/api/staff').expect(403);
  });
});
