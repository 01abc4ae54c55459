import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Database } from '../../src/app/index.js';
import type { SheetStep } from '../../src/shared/task-sheet.js';
import { Ledger } from '../../src/store/index.js';
import { makeSkids } from './small-fleet.js';

const step = (no: number, kind: SheetStep['kind'], text: string, about: Partial<SheetStep> = {}): SheetStep => ({
  no,
  kind,
  text,
  safety: false,
  signal: null,
  unit: null,
  low: null,
  high: null,
  ...about,
});

/** A visit today with three jobs for two technicians, who sign in with this password, and a van with a stock of its own. */
export async function makeWorkFleet(app: NestFastifyApplication, passwordHash: string, now: Date, task = 'Grease the bearings'): Promise<void> {
  const { prisma } = app.get(Database);
  const [skid] = await makeSkids(app, 'Oak', 1, 'Europe/Oslo');
  if (skid === undefined) throw new Error('No skid was made');
  const { id: skidId, clientId, siteId } = skid;
  const person = (name: string, email: string) => prisma.person.create({ data: { name, email, role: 'technician', passwordHash } });
  const people = [await person('Jo Fell', 'jo@example.org'), await person('Kim Ash', 'kim@example.org')];
  const pump = await prisma.position.create({ data: { skidId, clientId, kind: 'feed pump', name: 'Feed pump' } });
  await prisma.meter.create({ data: { clientId, positionId: pump.id, kind: 'run hours' } });

  const grease = await prisma.item.create({ data: { code: 'GRS-2', name: 'Bearing grease, 400 g', kind: 'consumable' } });
  const van = await prisma.place.create({ data: { name: 'Van of Jo', kind: 'van', personId: people[0]?.id ?? null } });
  const moves = [{ itemId: grease.id, lot: null, partId: null, quantity: '3', fromPlaceId: null, toPlaceId: van.id }];
  const caller = { id: people[0]?.id ?? '', name: 'test' };
  await app.get(Database).write((tx) => app.get(Ledger).post(tx, { id: crypto.randomUUID(), kind: 'receive', at: now, caller, note: '', moves }));

  const steps = [
    step(1, 'check', 'Is the pump locked off, and was it tried?', { safety: true }),
    step(2, 'do', 'Press 12 g of grease into each nipple.'),
    step(3, 'reading', 'Suction pressure with the pump running', { signal: 'feed_pressure', unit: 'bar', low: 0.8, high: 1.5 }),
    step(4, 'photograph', 'Both bearings with the covers on.'),
  ];
  const sheet = await prisma.taskSheet.create({
    data: {
      task,
      kind: 'service',
      versions: {
        create: { no: 1, createdBy: 'test', usualMinutes: 45, steps: steps as object[], parts: { create: { itemId: grease.id, quantity: 1 } } },
      },
    },
    include: { versions: true },
  });
  const at = { clientId, siteId, skidId, createdBy: 'test' };
  const visit = await prisma.visit.create({
    data: {
      clientId,
      siteId,
      onDay: new Date(now.toISOString().slice(0, 10)),
      startTime: '08:30',
      minutes: 120,
      createdBy: 'test',
      people: { create: people.map(({ id, name }) => ({ personId: id, name, clientId })) },
    },
  });
  const job = (title: string) =>
    prisma.job.create({
      data: {
        ...at,
        kind: 'service',
        title,
        visitId: visit.id,
        tasks: { create: { clientId, place: 1, task, positionId: pump.id, sheetVersionId: sheet.versions[0]?.id ?? null } },
      },
    });
  await job('Yearly service');
  await job('Second look');
  await job('Pump check');
}
