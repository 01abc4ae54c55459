import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Database } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { makeJob, makeTaskSheet, sheetOf } from '../support/sheets.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

let app: NestFastifyApplication;
let database: Database;
let skid: SmallSkid;
let manager: Api;
let technician: Api;
let other: Api;
let moduleId: string;
let transmitterId: string;
let sheetId: string;

beforeAll(async () => {
  app = await startTestApp();
  database = app.get(Database);
  [skid] = (await makeSkids(app, 'Alder', 1)) as [SmallSkid];
  manager = await signInAs(app, 'manager');
  technician = await signInAs(app, 'technician');
  other = await signInAs(app, 'technician');
  const position = async (body: object) => (await manager.post('/api/positions', { skidId: skid.id, ...body }).expect(201)).body.id;
  moduleId = await position({ kind: 'module', name: 'M-01' });
  transmitterId = await position({ kind: 'transmitter', name: 'PT-101', signal: 'feed_pressure' });
  const setup = { designFlowM3h: 36, airVolumeL: 250, highestTmpKpa: 100, airLiquidRatio: 40, creditLrv: 4, fibresPerModule: 9_000 };
  await manager.call('put', `/api/skids/${skid.id}/integrity-setup`).send(setup).expect(200);
  sheetId = await makeTaskSheet(app, 'Hold an integrity test', { kind: 'integrity test' });
});
afterAll(() => app?.close());

const decay = { startKpa: 130, endKpa: 115, minutes: 10, settledMinutes: 5, temperatureC: 20 };
const comparison = () => ({
  positionId: transmitterId,
  unit: 'kPa',
  tolerance: 4,
  referenceInstrument: 'Dead-weight tester 7',
  points: [{ reference: 0, asFound: 12, asLeft: 0 }],
});
const newJob = () => makeJob(manager, skid, [{ task: 'Hold an integrity test', taskSheetId: sheetId }]);
const send = (jobId: string, sheet: object, by = technician) => by.post(`/api/jobs/${jobId}/reports`, sheet);
const kept = async () => {
  const { prisma } = database;
  const [tests, repairs, calibrations, doubts, areas] = await Promise.all([
    prisma.integrityTest.findMany({ orderBy: { at: 'asc' } }),
    prisma.fibreRepair.findMany(),
    prisma.calibration.findMany(),
    prisma.doubtfulSpan.findMany(),
    prisma.skidArea.findMany({ orderBy: { fromDay: 'asc' } }),
  ]);
  return {
    tests: tests.map(({ outcome }) => outcome),
    fibres: repairs.map(({ fibres }) => fibres),
    calibrations: calibrations.map(({ asFound }) => asFound),
    doubts: doubts.length,
    areaM2: areas.at(-1)?.areaM2,
  };
};
const NOTHING = { tests: [], fibres: [], calibrations: [], doubts: 0, areaM2: 600 };

describe('a job sheet with proofs', () => {
  test('that cannot be so is refused with a pointer into the sheet, and nothing is kept', async () => {
    const job = await newJob();
    const { body } = await send(
      job.id,
      sheetOf(job, {
        integrityTests: [decay, { ...decay, minutes: 0 }],
        fibreRepairs: [{ positionId: transmitterId, fibres: 3 }],
        calibrations: [{ ...comparison(), unit: 'm3/h' }],
      }),
    ).expect(422);
    expect(body.errors.map(({ pointer }: { pointer: string }) => pointer).sort()).toEqual([
      '#/calibrations/0/unit',
      '#/fibreRepairs/0/positionId',
      '#/integrityTests/1/minutes',
    ]);
    expect(await kept()).toEqual(NOTHING);
  });

  test('records them with the sheet, each once, and gives them up with it', async () => {
    const job = await newJob();
    const proofs = { integrityTests: [decay, { ...decay, startKpa: 120 }], fibreRepairs: [{ positionId: moduleId, fibres: 90 }], calibrations: [comparison()] };
    const sheet = sheetOf(job, proofs);
    await send(job.id, sheet).expect(201);
    const first = { tests: ['failed', 'passed'], fibres: [90], calibrations: ['out of tolerance'], doubts: 1, areaM2: 594 };
    expect(await kept()).toEqual(first);
    await send(job.id, sheet).expect(201);
    expect(await kept()).toEqual(first);
    const rows = await database.prisma.integrityTest.findMany({ where: { reportId: sheet.id } });
    expect(rows.map(({ by }) => by)).toEqual(['A technician', 'A technician']);

    const second = sheetOf(job, { id: randomUUID(), offline: true, integrityTests: [decay] });
    expect((await send(job.id, second, other)).body.state).toBe('second');
    expect(await kept()).toEqual(first);
    await manager.post(`/api/jobs/${job.id}/reports/${second.id}/settle`, { choice: 'take this one', note: 'The pins were in another skid' }).expect(200);
    expect(await kept()).toEqual({ ...NOTHING, tests: ['failed'] });
  });
});
