import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database } from '../../src/app/index.js';
import { dayPlus } from '../../src/shared/day.js';
import type { Api } from '../support/api.js';
import { fetchPdf } from '../support/fetch-pdf.js';
import { countOf, haveReaders, type ReadPdf, readPdf } from '../support/pdf.js';
import { pointersOf } from '../support/records.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

const NOW = new Date('2026-11-25T09:00:00Z');
const PERIOD = 'from=2026-01-01&to=2026-06-30';
let app: NestFastifyApplication;
let manager: Api;
let client: Api;
let alder: SmallSkid[];
let birch: SmallSkid;

beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => NOW;
  manager = await signInAs(app, 'manager');
  alder = await makeSkids(app, 'Alder', 2);
  birch = (await makeSkids(app, 'Birch', 1))[0] as SmallSkid;
  client = await signInAs(app, 'client', { clientId: alder[0]?.clientId as string });
  await fillRecord(alder[0] as SmallSkid);
});
afterAll(() => app?.close());

const read = async (by: Api, path: string): Promise<ReadPdf> => readPdf((await fetchPdf(by, path).expect(200)).body);
const ofSkid = (skid: SmallSkid | undefined, query = PERIOD) => `/api/skids/${skid?.id}/report.pdf?${query}`;
const ofClient = (clientId: string | undefined, query = PERIOD) => `/api/clients/${clientId}/report.pdf?${query}`;

/** Half a year of one skid: permeability falls, a recovery clean lifts it; one of everything else. */
async function fillRecord({ id: skidId, no: skidNo, clientId }: SmallSkid): Promise<void> {
  const { prisma, pool } = app.get(Database);
  const at = (day: string) => new Date(`${day}T10:00:00Z`);
  const days = Array.from({ length: 329 }, (_, index) => ({ day: dayPlus('2026-01-01', index), permeability: 200 - index * 0.5 + (index >= 100 ? 45 : 0) }));
  await prisma.dailyCondition.createMany({
    data: days.map(({ day, permeability }) => ({
      skidNo,
      clientId,
      day: new Date(`${day}T00:00:00Z`),
      cycles: 40,
      filtrationHours: 20,
      filtrateM3: 800,
      filtrateEstimated: false,
      permeability,
      permeabilityCount: 40,
      leftOut: {},
      cartridgeLeftOut: {},
      byHand: false,
    })),
  });
  const baseline = { kind: 'baseline', permeabilityLmhBar: 200, referenceC: 20, from: 'commissioning', assumed: false, day: '2026-01-01' };
  await prisma.skidCondition.create({
    data: { skidNo, clientId, computedAt: NOW, lastReadingAt: NOW, baselines: { commissioning: baseline, lastCip: baseline, lastCeb: baseline } },
  });
  await prisma.clean.createMany({
    data: [
      { clientId, skidId, kind: 'CIP', at: at('2026-04-11'), chemical: 'citric acid', strengthMgL: 20_000, contactMinutes: 90, loadNo: 1 },
      { clientId, skidId, kind: 'CIP', at: at('2026-08-11'), chemical: 'oxalic acid', loadNo: 1 },
      ...['2026-02-01', '2026-02-02'].map((day) => ({ clientId, skidId, kind: 'CEB', at: at(day), chemical: 'sodium hypochlorite', loadNo: 1 })),
    ],
  });
  const pump = await prisma.position.create({ data: { clientId, skidId, kind: 'feed pump', name: 'Feed pump 1' } });
  const item = await prisma.item.create({ data: { code: 'S-1', name: 'Mechanical seal', kind: 'seal' } });
  const part = await prisma.part.create({ data: { itemId: item.id, serialNumber: 'SN-77' } });
  await prisma.fitting.create({ data: { clientId, positionId: pump.id, partId: part.id, fittedAt: at('2026-03-03'), fittedBy: 'Ada Example' } });
  await prisma.serviceEntry.create({
    data: {
      clientId,
      skidId,
      positionId: pump.id,
      task: 'Renew the mechanical seal',
      at: at('2026-03-03'),
      minutes: 95,
      doneBy: 'Ada Example',
      note: 'It dripped',
      loadNo: 1,
    },
  });
  const tank = await prisma.tank.create({
    data: { clientId, skidId, name: 'Acid drum', chemical: 'citric acid', shape: 'drum', heightM: 1, capacityL: 200 },
  });
  await prisma.tankDip.createMany({
    data: [
      { tankId: tank.id, clientId, at: at('2026-02-01'), levelM: 0.5, readBy: 'Op', loadNo: 1 },
      { tankId: tank.id, clientId, at: at('2026-05-01'), levelM: 0.25, readBy: 'Op', loadNo: 1 },
    ],
  });
  await prisma.tankDelivery.create({ data: { tankId: tank.id, clientId, at: at('2026-03-01'), volumeL: 60, lot: 'L-9', by: 'Op', loadNo: 1 } });
  await prisma.due.create({
    data: {
      clientId,
      skidNo,
      task: 'Recovery clean',
      limit: 'outlook',
      bestOn: at('2026-12-05'),
      reason: 'The limit comes near.',
      computedFrom: [],
      computedAt: NOW,
    },
  });
  await pool.query(
    `INSERT INTO integrity_test (id, client_id, skid_id, at, by, start_kpa, end_kpa, minutes, settled_minutes, temperature_c, decay_kpa_min, least_test_kpa, lrv, control_limit_kpa_min, outcome, reasons, setup)
     VALUES (gen_random_uuid(), $1, $2, $3, 'Ada Example', 150, 145, 5, 5, 15, 1, 120, 4.21, 2, 'passed', '{}', '{}')`,
    [clientId, skidId, at('2026-05-05')],
  );
  await pool.query(
    `INSERT INTO calibration (id, client_id, skid_id, position_id, signal, unit, at, by, reference_instrument, tolerance, points, worst_as_found, as_found, as_left)
     VALUES (gen_random_uuid(), $1, $2, $3, 'feed_pressure', 'kPa', $4, 'Ada Example', 'Test gauge 4', 5, '[]', 8, 'out of tolerance', 'in tolerance')`,
    [clientId, skidId, pump.id, at('2026-06-01')],
  );
}

const describeRead = haveReaders() ? describe : describe.skip;

describeRead('the report of a period of a skid', () => {
  let report: ReadPdf;
  beforeAll(async () => {
    report = await read(client, ofSkid(alder[0]));
  });

  test('says how the skid is today and why, whatever the period', () => {
    expect(report.text).toMatch(
      /Alder 1: 1 Jan 2026 to 30 Jun 2026 As it stands on 25 Nov 2026 Due Recovery clean, best on 5 Dec 2026\. The limit comes near\./,
    );
  });

  test('goes through condition, water, cleans, work, parts, chemicals, integrity, calibrations and outlook in this order, each with its head', () => {
    const heads = [...report.structure.matchAll(/^ {2}H2[^\n]*\n *"([^"]+)"/gm)].map((found) => found[1]);
    expect(heads).toEqual([
      'Condition',
      'Water produced',
      'Chemical cleans',
      'Work done',
      'Parts fitted and removed',
      'Chemicals',
      'Integrity',
      'Calibrations',
      'Outlook',
    ]);
    expect(countOf(report, 'H1')).toBe(1);
    expect(countOf(report, 'Figure')).toBe(2);
  });

  test('tells of what was measured in the period, and of nothing after it', () => {
    expect(report.text).toContain('Measured on 181 of 181 days. Median of the first two weeks 197 L/m²·h·bar, of the last two 158 L/m²·h·bar.');
    expect(report.text).toContain('144,800 m³ on 181 days with a record, in 3,620 h of filtration.');
    expect(report.text).not.toContain('oxalic acid');
  });

  test('says what a recovery clean gave back, and counts the maintenance cleans', () => {
    expect(report.text).toContain('2 maintenance cleans (CEB): 2 × sodium hypochlorite.');
    expect(report.text).toMatch(/11 Apr 2026 citric acid, 20,000 mg\/L, 90 min 151 194 \+28 %/);
  });

  test('names work, parts, deliveries and proofs with who and when, by the clocks of the site', () => {
    expect(report.text).toMatch(/3 Mar 2026, 11:00 Feed pump 1 Renew the mechanical seal 95 Ada Example It dripped/);
    expect(report.text).toMatch(/Feed pump 1 Mechanical seal, serial number SN-77 3 Mar 2026, 11:00/);
    expect(report.text).toMatch(/Acid drum citric acid 60 110 1 Feb 2026, 11:00 to 1 May 2026, 12:00/);
    expect(report.text).toMatch(/5 May 2026, 12:00 1\.50 0\.0100 0\.0200 4\.21 passed Ada Example/);
    expect(report.text).toMatch(/Feed pump 1 out of tolerance, worst 8 kPa in tolerance 5 kPa Test gauge 4/);
  });

  test('is written in the units that are asked for', async () => {
    const { text } = await read(client, ofSkid(alder[0], `${PERIOD}&pressure=kPa`));
    expect(text).toMatch(/5 May 2026, 12:00 150 1\.00 2\.00 4\.21 passed/);
  });

  test('that reaches today takes the last 90 days, unless other days are asked for', async () => {
    const { text } = await read(client, ofSkid(alder[0], ''));
    expect(text).toContain('Alder 1: 28 Aug 2026 to 25 Nov 2026');
    expect(text).toContain('There is no forecast yet. ');
  });

  test('of a skid without any record says so, part by part', async () => {
    const { text } = await read(client, ofSkid(alder[1]));
    expect(text).toMatch(/Condition Nothing was measured in this period\. Water produced No filtrate is on record in this period\./);
    expect(text).toMatch(/Integrity No integrity test is on record in this period\. Calibrations No calibration is on record/);
  });
});

describeRead('the report of a period of a client', () => {
  test('holds every skid in one table, then each on pages of its own', async () => {
    const report = await read(client, ofClient(alder[0]?.clientId));
    expect(report.text).toMatch(/All skids Skid Site Standing Water, m³ .* Alder 1 Alder site Due 144,800 1 1 1 0 1 of 1 passed Alder 2 Alder site/);
    expect([...report.structure.matchAll(/^ {2}H2[^\n]*\n *"([^"]+)"/gm)].map((found) => found[1])).toEqual(['All skids', 'Alder 1', 'Alder 2']);
  });
});

describe('whoever asks for a report', () => {
  test('gets a file whose name says skid and period', async () => {
    const { headers } = await fetchPdf(manager, ofSkid(alder[0])).expect(200);
    expect(headers['content-type']).toBe('application/pdf');
    expect(headers['content-disposition']).toContain('filename="Alder 1 2026-01-01 to 2026-06-30.pdf"');
  });

  test.each(['storekeeper', 'technician'])('may be a %s too', async (role) => {
    await fetchPdf(await signInAs(app, role), ofSkid(alder[0])).expect(200);
  });

  test('finds nothing of another client', async () => {
    await client.get(ofSkid(birch)).expect(404);
    await client.get(ofClient(birch.clientId)).expect(404);
    await fetchPdf(manager, ofSkid(birch)).expect(200);
  });

  test('finds no skid that is not there', async () => {
    const { body } = await manager.get(ofSkid({ ...birch, id: '0198c000-0000-7000-8000-000000000000' })).expect(404);
    expect(body.code).toBe('request/not-found');
  });

  test.each([
    ['from=2026-07-01&to=2026-06-30', '#/from', 'lies after'],
    ['from=2020-01-01&to=2026-06-30', '#/from', '3 years at most'],
    ['from=2026-02-30', '#/from', 'day that the calendar has'],
    ['to=yesterday', '#/to', 'day that the calendar has'],
    ['pressure=stone', '#/pressure', 'kPa'],
  ])('is told what to mend in "%s"', async (query, pointer, words) => {
    const { body } = await manager.get(ofSkid(alder[0], query)).expect(400);
    expect(pointersOf(body)).toEqual([pointer]);
    expect(JSON.stringify(body)).toContain(words);
  });
});
