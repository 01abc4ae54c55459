import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Database } from '../../src/app/index.js';
import type { Api } from './api.js';
import { type SmallSkid, signInAs } from './small-fleet.js';

/** A line of the due list. */
export async function makeDue(
  app: NestFastifyApplication,
  skid: SmallSkid,
  task: string,
  about: { bestOn?: string; latestOn?: string; taskSheetId?: string; minutes?: number } = {},
): Promise<string> {
  const { bestOn = '2026-11-28', latestOn = '2026-12-01', taskSheetId = null, minutes = null } = about;
  const dates = { earliestOn: new Date('2026-11-20'), bestOn: new Date(bestOn), latestOn: new Date(latestOn) };
  const basis = { limit: 'calendar', reason: `${task} is due`, computedFrom: [], computedAt: new Date('2026-11-25T00:00:00Z') };
  const data = { clientId: skid.clientId, skidNo: skid.no, task, taskSheetId, expectedMinutes: minutes, ...dates, ...basis };
  return (await app.get(Database).prisma.due.create({ data, select: { id: true } })).id;
}

/** Somebody of the staff by name, who is signed in. */
export async function signInByName(app: NestFastifyApplication, name: string, role = 'technician'): Promise<{ api: Api; id: string }> {
  const { prisma } = app.get(Database);
  const api = await signInAs(app, role);
  const { id } = await prisma.person.findFirstOrThrow({ where: { name: `A ${role}` }, orderBy: { id: 'desc' } });
  await prisma.person.update({ where: { id }, data: { name } });
  return { api, id };
}
