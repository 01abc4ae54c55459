import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { fetchPdf } from '../support/fetch-pdf.js';
import { countOf, haveReaders, type ReadPdf, readPdf } from '../support/pdf.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

const NOW = new Date('2026-11-25T09:00:00Z');
const PNG = Buffer.from('iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==', 'base64');
let app: NestFastifyApplication;
let manager: Api;
let client: Api;
let other: Api;
let jobId: string;
let visitId: string;

beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => NOW;
  const [alder] = await makeSkids(app, 'Alder', 1);
  const [birch] = await makeSkids(app, 'Birch', 1);
  manager = await signInAs(app, 'manager');
  client = await signInAs(app, 'client', { clientId: alder?.clientId as string });
  other = await signInAs(app, 'client', { clientId: birch?.clientId as string });
  await fillJob(alder as SmallSkid);
});
afterAll(() => app?.close());

/** A job of a visit with a sheet that counts, one that was set aside, a photograph, and notes of which one was told to the client. */
async function fillJob({ id: skidId, clientId, siteId }: SmallSkid): Promise<void> {
  const { prisma } = app.get(Database);
  const at = new Date('2026-11-20T08:00:00Z');
  const by = { by: 'Ada Example', byId: randomUUID() };
  const visit = await prisma.visit.create({
    data: {
      clientId,
      siteId,
      onDay: new Date('2026-11-20'),
      startTime: '09:00',
      minutes: 150,
      state: 'finished',
      noteToClient: 'Water is off for an hour.',
      createdBy: 'M',
    },
  });
  visitId = visit.id;
  const position = await prisma.position.create({ data: { clientId, skidId, kind: 'feed pump', name: 'Feed pump 1' } });
  const job = await prisma.job.create({
    data: {
      clientId,
      siteId,
      skidId,
      visitId,
      kind: 'service',
      title: 'Renew the mechanical seal',
      request: 'It drips since Monday',
      state: 'finished',
      createdAt: at,
      createdBy: 'Max Example',
      finishedAt: at,
      finishedBy: 'Ada Example',
    },
  });
  jobId = job.id;
  await prisma.jobTask.create({
    data: { jobId, clientId, place: 1, task: 'Renew the seal', positionId: position.id, reason: 'Every 4,000 h', dueOn: at, outcome: 'done', doneAt: at },
  });
  const summary = {
    tasks: [
      {
        task: 'Renew the seal',
        positionName: 'Feed pump 1',
        outcome: 'done',
        note: 'The old one was worn on one side',
        steps: [
          { name: 'Isolate and lock out', value: 'done', mark: null },
          { name: 'Motor current', value: '14.2 A (10 to 13)', mark: 'outside its limits' },
        ],
      },
    ],
    lines: [{ name: 'Mechanical seal', value: '1 fitted, serial number SN-9', mark: null }],
    note: 'Listen to the bearing next time',
  };
  const sheet = {
    jobId,
    clientId,
    ...by,
    startedAt: at,
    finishedAt: new Date('2026-11-20T09:30:00Z'),
    minutes: 90,
    content: {},
    contentHash: 'x',
    signedBy: 'Ola Operator',
  };
  const counts = await prisma.jobReport.create({ data: { ...sheet, id: randomUUID(), state: 'counts', summary } });
  await prisma.jobReport.create({ data: { ...sheet, id: randomUUID(), state: 'set aside', summary: { ...summary, note: 'SET ASIDE' } } });
  await prisma.jobChange.createMany({
    data: [
      { jobId, clientId, at, by: 'Max Example', what: 'note', note: 'We come on Friday', toClient: true },
      { jobId, clientId, at, by: 'Max Example', what: 'note', note: 'ONLY FOR STAFF' },
    ],
  });
  const file = { ofKind: 'report', ofId: counts.id, bytes: PNG.length, sha256: 'x', content: PNG, ...by, at };
  await prisma.attachment.createMany({
    data: [
      { ...file, id: randomUUID(), clientId, skidId, name: 'seal.png', mediaType: 'image/png' },
      { ...file, id: randomUUID(), clientId, skidId, name: 'manual.pdf', mediaType: 'application/pdf' },
      { ...file, id: randomUUID(), clientId: null, name: 'INTERNAL.png', mediaType: 'image/png' },
    ],
  });
  await prisma.integrityTest.create({
    data: {
      clientId,
      skidId,
      at,
      by: 'Ada Example',
      startKpa: 150,
      endKpa: 145,
      minutes: 5,
      settledMinutes: 5,
      temperatureC: 15,
      decayKpaMin: 1,
      leastTestKpa: 120,
      outcome: 'failed',
      reasons: ['The pressure falls faster than the control limit'],
      setup: {},
      reportId: counts.id,
    },
  });
}

const read = async (by: Api, path: string): Promise<ReadPdf> => readPdf((await fetchPdf(by, path).expect(200)).body);
const ofJob = () => `/api/jobs/${jobId}/report.pdf`;
const ofVisit = () => `/api/visits/${visitId}/report.pdf`;

(haveReaders() ? describe : describe.skip)('the report of a job', () => {
  let report: ReadPdf;
  beforeAll(async () => {
    report = await read(client, ofJob());
  });

  test('says what was asked, by whom, and what it was for', () => {
    expect(report.text).toMatch(/Alder · Alder site · Alder 1 Job \d+: Renew the mechanical seal State finished/);
    expect(report.text).toContain('What was asked for It drips since Monday');
    expect(report.text).toMatch(/Task Why Due Outcome Renew the seal Every 4,000 h 20 Nov 2026 done/);
  });

  test('goes through the steps with what was read, and marks what is to be looked at', () => {
    expect(report.text).toMatch(/Done by Ada Example From 20 Nov 2026, 09:00 to 20 Nov 2026, 10:30; 1 h 30 min of work\./);
    expect(report.text).toMatch(
      /Renew the seal, Feed pump 1: done The old one was worn on one side Step Result To be looked at Isolate and lock out done Motor current 14\.2 A/,
    );
    expect(report.text).toContain('14.2 A (10 to 13) outside its limits');
    expect(report.text).toContain('Mechanical seal 1 fitted, serial number SN-9');
  });

  test('holds the proofs that came with it, the note and the name of whoever signed', () => {
    expect(report.text).toMatch(/20 Nov 2026, 09:00 1\.50 0\.0100 – – failed/);
    expect(report.text).toMatch(/Listen to the bearing next time Signed by Ola Operator, 20 Nov 2026, 10:30/);
  });

  test('shows photographs and names the other files', () => {
    expect(countOf(report, 'Figure')).toBe(1);
    expect(report.text).toContain('seal.png: Ada Example, 20 Nov 2026, 09:00');
    expect(report.text).toMatch(/One more file is kept with the job: • manual\.pdf/);
  });

  test('holds what the client was told, and for nobody what was kept among staff or set aside', async () => {
    expect(report.text).toContain('20 Nov 2026, 09:00, Max Example: We come on Friday');
    for (const by of [client, manager]) expect((await read(by, ofJob())).text).not.toMatch(/ONLY FOR STAFF|SET ASIDE|INTERNAL/);
  });
});

(haveReaders() ? describe : describe.skip)('the report of a visit', () => {
  test('says who was there and when, and goes through its jobs', async () => {
    const report = await read(client, ofVisit());
    expect(report.text).toMatch(/Visit \d+, 20 Nov 2026 State finished Technicians – From 09:00 Planned for 2 h 30 min Water is off for an hour\./);
    expect([...report.structure.matchAll(/^ {2}H2[^\n]*\n *"([^"]+)"/gm)].map((found) => found[1])).toEqual(['Jobs', expect.stringMatching(/^Job \d+: Renew/)]);
    expect(countOf(report, 'H1')).toBe(1);
  });
});

describe('whoever asks', () => {
  test.each([ofJob, ofVisit])('gets a file, and finds nothing of another client', async (path) => {
    const { headers } = await fetchPdf(manager, path()).expect(200);
    expect(headers['content-disposition']).toMatch(/filename="Alder (1 job \d+|site visit 2026-11-20)\.pdf"/);
    await other.get(path()).expect(404);
  });

  test('of a visit that is not promised yet is told nothing, being a client', async () => {
    const { prisma } = app.get(Database);
    await prisma.visit.update({ where: { id: visitId }, data: { state: 'planned' } });
    await client.get(ofVisit()).expect(404);
    await fetchPdf(manager, ofVisit()).expect(200);
    await prisma.visit.update({ where: { id: visitId }, data: { state: 'finished' } });
  });
});
