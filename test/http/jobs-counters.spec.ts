import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database, Recompute } from '../../src/app/index.js';
import { temperatureCorrection } from '../../src/condition/core/temperature-correction.js';
import type { Api } from '../support/api.js';
import { makeRuleSet } from '../support/rules.js';
import { makeJob, sheetOf } from '../support/sheets.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

const NOW = new Date('2026-11-25T18:00:00Z');
const DAY_MS = 86_400_000;
const HOURS_A_DAY = 10;
/** Days before now on which a skid was recovered by a clean of which nobody has told yet. */
const CLEANED = 15;
const RULES = [
  { task: 'Grease the bearings', positionKind: 'feed pump', runHours: 500, graceDays: 0 },
  { task: 'Overhaul the pump', positionKind: 'feed pump', runHours: 8_000, graceDays: 0 },
  { task: 'Check the coupling', positionKind: 'feed pump', days: 90, graceDays: 0 },
  { task: 'Change the cartridges', positionKind: 'pre-filter', days: 60, graceDays: 0 },
];

let app: NestFastifyApplication;
let manager: Api;
let technician: Api;
let skid: SmallSkid;
let pumpId: string;
let meterId: string;
let housingId: string;
let cartridge: string;

const ago = (days: number) => new Date(NOW.getTime() - days * DAY_MS);
const hoursOn = (days: number) => 6_000 - HOURS_A_DAY * days;

beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => NOW;
  manager = await signInAs(app, 'manager');
  technician = await signInAs(app, 'technician');
  [skid] = (await makeSkids(app, 'Elm', 1)) as [SmallSkid];
  const { prisma } = app.get(Database);
  const { id: skidId, clientId } = skid;
  await prisma.skid.update({ where: { id: skidId }, data: { baselineLmhBar: 200, commissionedOn: ago(120) } });
  const { no: loadNo } = await prisma.load.create({ data: { skidId, clientId, kind: 'cycles', name: 'record', sha256: '', by: 'test' } });
  await prisma.cycle.createMany({ data: cyclesOf(loadNo) });
  const position = (kind: string, name: string) => prisma.position.create({ data: { clientId, skidId, kind, name } }).then(({ id }) => id);
  pumpId = await position('feed pump', 'P-101');
  housingId = await position('pre-filter', 'F-01');
  meterId = (await prisma.meter.create({ data: { clientId, positionId: pumpId, kind: 'run hours' } })).id;
  const readings = [100, 80, 60, 40, 20, 1].map((days) => ({ meterId, clientId, at: ago(days), value: hoursOn(days), loadNo }));
  await prisma.meterReading.createMany({ data: readings });
  const done = RULES.filter(({ positionKind }) => positionKind === 'feed pump').map(({ task }) => ({
    skidId,
    clientId,
    positionId: pumpId,
    task,
    at: ago(60),
    doneBy: 'T',
    loadNo,
  }));
  await prisma.serviceEntry.createMany({ data: done });
  cartridge = (await prisma.item.create({ data: { code: 'CA-1', name: 'Cartridge', kind: 'cartridge' } })).id;
  const old = await prisma.part.create({ data: { itemId: cartridge, setCount: 7 } });
  await prisma.fitting.create({ data: { clientId, positionId: housingId, partId: old.id, fittedAt: ago(50), fittedBy: 'T' } });
  const ruleSetVersionId = await makeRuleSet(prisma, [skidId], RULES);
  await prisma.upkeepRule.updateMany({ where: { ruleSetVersionId, task: 'Overhaul the pump' }, data: { contains: ['Grease the bearings'] } });
  await app.get(Recompute).now(skidId);
});
afterAll(() => app?.close());

/** Four half hours a day at 36 m3/h and 12 degC: permeability falls by 1 % a day from 200, and stands at 190 since the clean. */
function cyclesOf(loadNo: number) {
  return Array.from({ length: 60 * 4 }, (_, index) => {
    const days = 60 - Math.floor(index / 4);
    const permeability = days > CLEANED ? 200 * 0.99 ** (60 - days) : 190;
    const tmpKpa = (60 / permeability) * 100 * temperatureCorrection(12, 20);
    const startedAt = new Date(ago(days).getTime() + (index % 4) * 3_600_000);
    const measured = { filtrationMinutes: 30, filtrateM3: 18, flowM3h: 36, feedKpa: 100 + tmpKpa, filtrateKpa: 100, temperatureC: 12, quality: 0 };
    return { skidNo: skid.no, startedAt, endedAt: new Date(startedAt.getTime() + 1_800_000), ...measured, loadNo };
  });
}

/** The day on which each task of a rule is best done, as computed now. */
async function bestDays(): Promise<Record<string, string | undefined>> {
  await app.get(Recompute).now(skid.id);
  const dues = await app.get(Database).prisma.due.findMany({ where: { skidNo: skid.no, ruleId: { not: null } } });
  return Object.fromEntries(dues.map(({ task, bestOn }) => [task, bestOn?.toISOString().slice(0, 10)]));
}

async function finish(task: string, positionId: string | null, sheet: object): Promise<void> {
  const job = await makeJob(manager, skid, [{ task, ...(positionId !== null && { positionId }) }]);
  const { body } = await technician.post(
    `/api/jobs/${job.id}/reports`,
    sheetOf(job, { startedAt: ago(0.2).toISOString(), finishedAt: ago(0.1).toISOString(), ...sheet }),
  );
  expect(body).toMatchObject({ state: 'counts', problems: [] });
}

describe('a job that is finished', () => {
  test('begins the hours of its own task anew, and of no other', async () => {
    const before = await bestDays();
    expect(before).toMatchObject({ 'Grease the bearings': '2026-11-15', 'Check the coupling': '2026-12-25' });
    await finish('Grease the bearings', pumpId, { meters: [{ meterId, value: hoursOn(0.1) }] });
    const after = await bestDays();
    expect(after).toEqual({ ...before, 'Grease the bearings': '2027-01-14' }); // 500 h at 10 h a day
  });

  test('clears the smaller services that a larger one contains, and no other', async () => {
    const { prisma } = app.get(Database);
    await prisma.serviceEntry.deleteMany({ where: { skidId: skid.id, task: 'Grease the bearings', at: { gt: ago(30) } } });
    const before = await bestDays();
    expect(before['Grease the bearings']).toBe('2026-11-15');
    await finish('Overhaul the pump', pumpId, {});
    const after = await bestDays();
    expect(after['Grease the bearings']).toBe('2027-01-14');
    expect(after['Overhaul the pump']).not.toBe(before['Overhaul the pump']);
    expect([after['Check the coupling'], after['Change the cartridges']]).toEqual([before['Check the coupling'], before['Change the cartridges']]);
  });

  test('with new cartridges begins their days with the day on which they were fitted', async () => {
    const before = await bestDays();
    expect(before['Change the cartridges']).toBe('2026-12-05');
    await finish('Change the cartridges', housingId, { partsFitted: [{ positionId: housingId, itemId: cartridge, setCount: 7, removalReason: 'clogged' }] });
    expect(await bestDays()).toEqual({ ...before, 'Change the cartridges': '2027-01-24' });
    const outlook = await app.get(Database).prisma.due.findFirst({ where: { skidNo: skid.no, positionId: housingId, ruleId: null } });
    expect(outlook?.reason).toContain('has not been read since the set was fitted'); // the outlook knows of it too, and of the one set before
    const { body } = await technician.get(`/api/positions/${housingId}/fittings`).expect(200);
    expect(body.items.map(({ removalReason }: { removalReason: string | null }) => removalReason)).toEqual([null, 'clogged']);
  });

  test('with a recovery clean gives the skid the baseline that followed it', async () => {
    const baseline = async () => {
      await app.get(Recompute).now(skid.id);
      const { baselines } = await app.get(Database).prisma.skidCondition.findUniqueOrThrow({ where: { skidNo: skid.no } });
      return (baselines as Record<string, { from?: string; permeabilityLmhBar?: number }>).lastCip;
    };
    expect(await baseline()).toMatchObject({ from: 'commissioning', permeabilityLmhBar: 200 });
    const finishedAt = ago(CLEANED + 0.5).toISOString();
    await finish('Recovery clean', null, {
      startedAt: ago(CLEANED + 0.6).toISOString(),
      finishedAt,
      cleans: [{ kind: 'CIP', chemical: 'citric acid', contactMinutes: 90 }],
    });
    const after = await baseline();
    expect(after?.from).toBe('last CIP');
    expect(after?.permeabilityLmhBar).toBeCloseTo(190, 0);
  });
});
