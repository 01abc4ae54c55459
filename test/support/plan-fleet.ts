import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Database } from '../../src/app/index.js';
import { makePageFleet, type PageFleet } from './page-fleet.js';
import { makeWorkFleet } from './work-fleet.js';

export interface PlanFleet extends PageFleet {
  /** At another site than the skid */
  readonly openJobId: string;
  readonly visitId: string;
}

/** The fleet of the pages, and two technicians with a visit today at another site, where one more job waits for a visit. */
export async function makePlanFleet(app: NestFastifyApplication, now: Date): Promise<PlanFleet> {
  const fleet = await makePageFleet(app, now);
  const { prisma } = app.get(Database);
  const manager = await prisma.person.findFirstOrThrow({ where: { role: 'manager' } });
  await makeWorkFleet(app, manager.passwordHash ?? '', now, 'Grease both bearings');
  const visit = await prisma.visit.findFirstOrThrow({ include: { jobs: true } });
  const [job] = visit.jobs;
  if (job === undefined) throw new Error('The visit has no job');
  const { clientId, siteId, skidId } = job;
  const open = await prisma.job.create({
    data: {
      clientId,
      siteId,
      skidId,
      kind: 'service',
      title: 'Replace the gauge',
      createdBy: 'test',
      tasks: { create: { clientId, place: 1, task: 'Replace the gauge' } },
    },
  });
  return { ...fleet, openJobId: open.id, visitId: visit.id };
}
