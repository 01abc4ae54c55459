import { randomUUID } from 'node:crypto';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Database } from '../../src/app/index.js';
import type { SmallSkid } from './small-fleet.js';

const AT = new Date('2026-11-01T00:00:00Z');
const DAY = new Date('2026-11-01');

/** One record of every kind that a client may read, each with the name of the client in it. Answers with all ids. */
export async function makeRecords(app: NestFastifyApplication, skid: SmallSkid, name: string, itemId: string): Promise<string[]> {
  const { prisma } = app.get(Database);
  const { clientId, siteId, id: skidId, no } = skid;
  const position = await prisma.position.create({ data: { clientId, skidId, kind: 'feed pump', name: `${name} pump` } });
  const part = await prisma.part.create({ data: { itemId, serialNumber: `${name} serial` } });
  const fitting = await prisma.fitting.create({ data: { clientId, positionId: position.id, partId: part.id, fittedAt: AT, fittedBy: 'T' } });
  const meter = await prisma.meter.create({ data: { clientId, positionId: position.id, kind: 'run hours' } });
  const tank = await prisma.tank.create({
    data: { clientId, skidId, name: `${name} tank`, chemical: `${name} acid`, shape: 'drum', heightM: 1, capacityL: 200 },
  });
  const ofTank = { clientId, tankId: tank.id };
  const user = await prisma.tankUser.create({ data: { ...ofTank, name: `${name} wash bay`, litresPerDay: 1 } });
  const assay = await prisma.tankAssay.create({ data: { ...ofTank, at: AT, strengthGL: 120, value: 120, basis: 'g/L', by: `${name} chemist`, enteredAt: AT } });
  const announced = await prisma.clientDelivery.create({
    data: { ...ofTank, volumeL: 50, expectedOn: DAY, note: `${name} lorry`, announcedAt: AT, announcedBy: `${name} operator` },
  });
  await prisma.serviceStateChange.create({ data: { clientId, skidId, at: AT, state: 'in service', by: 'T', note: `${name} state` } });
  const due = { clientId, skidNo: no, task: `${name} oil`, limit: 'calendar', reason: `${name} due`, computedFrom: [], computedAt: AT };
  await prisma.due.create({ data: due });
  return [
    skidId,
    clientId,
    siteId,
    position.id,
    part.id,
    fitting.id,
    meter.id,
    tank.id,
    user.id,
    assay.id,
    announced.id,
    ...(await makeWork(app, skid, name, position.id)),
    ...(await makeProofs(app, skid, name, position.id)),
  ];
}

async function makeWork(app: NestFastifyApplication, { clientId, siteId, id: skidId }: SmallSkid, name: string, positionId: string): Promise<string[]> {
  const { prisma } = app.get(Database);
  const person = await prisma.person.create({ data: { name: `${name} technician`, email: `${randomUUID()}@example.org`, role: 'technician' } });
  const visit = await prisma.visit.create({
    data: { clientId, siteId, onDay: DAY, startTime: '08:00', minutes: 60, state: 'promised', noteToClient: `${name} visit`, promisedAt: AT, createdBy: 'T' },
  });
  await prisma.visitPerson.create({ data: { visitId: visit.id, personId: person.id, clientId, name: person.name } });
  const asked = { visitId: visit.id, clientId, siteId, onDay: new Date('2100-01-04'), startTime: '08:00', minutes: 60, proposedAt: AT, proposedBy: 'T' };
  const proposal = await prisma.visitAnswer.create({ data: { ...asked, note: `${name} proposal` } });
  const job = await prisma.job.create({
    data: { clientId, siteId, skidId, kind: 'breakdown', title: `${name} pump stopped`, request: `${name} request`, createdBy: 'T', visitId: visit.id },
  });
  const about = { jobId: job.id, clientId };
  const task = await prisma.jobTask.create({ data: { ...about, place: 1, task: `${name} task`, positionId } });
  await prisma.jobChange.create({ data: { ...about, by: 'T', what: 'note', note: `${name} note`, toClient: true } });
  await prisma.breakdown.create({ data: { ...about, skidId, severity: 'no water', source: 'client', noticedAt: AT, cause: `${name} cause` } });
  const summary = { tasks: [], lines: [{ name: `${name} line`, value: '1', mark: null }], note: `${name} report` };
  const report = {
    ...about,
    id: randomUUID(),
    byId: person.id,
    by: `${name} technician`,
    startedAt: AT,
    finishedAt: AT,
    state: 'counts',
    minutes: 60,
    content: {},
    contentHash: '',
    summary,
  };
  await prisma.jobReport.create({ data: report });
  const attachment = await prisma.attachment.create({
    data: {
      id: randomUUID(),
      clientId,
      skidId,
      ofKind: 'job',
      ofId: job.id,
      name: `${name} photograph`,
      mediaType: 'image/png',
      bytes: 3,
      sha256: '',
      content: Buffer.from(name),
      byId: person.id,
      by: 'T',
    },
  });
  return [visit.id, proposal.id, person.id, job.id, task.id, report.id, attachment.id];
}

async function makeProofs(app: NestFastifyApplication, { clientId, id: skidId }: SmallSkid, name: string, positionId: string): Promise<string[]> {
  const { prisma } = app.get(Database);
  const about = { clientId, skidId, at: AT, by: 'T', note: `${name} proof` };
  const figures = { startKpa: 120, endKpa: 115, minutes: 10, settledMinutes: 5, temperatureC: 20, decayKpaMin: 0.5 };
  const test = await prisma.integrityTest.create({ data: { ...about, ...figures, outcome: 'passed', reasons: [], setup: {} } });
  const repair = await prisma.fibreRepair.create({ data: { ...about, positionId, fibres: 3 } });
  const compared = { signal: 'feed_pressure', unit: 'kPa', tolerance: 2, points: [], worstAsFound: 12, asFound: 'out of tolerance', asLeft: 'in tolerance' };
  const calibration = await prisma.calibration.create({ data: { ...about, ...compared, positionId, referenceInstrument: `${name} gauge` } });
  const span = { clientId, skidId, signal: 'feed_pressure', toAt: AT, error: 12, reason: `${name} doubt`, calibrationId: calibration.id };
  const doubt = await prisma.doubtfulSpan.create({ data: span });
  return [test.id, repair.id, calibration.id, doubt.id];
}
