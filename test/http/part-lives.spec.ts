import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { subDays } from 'date-fns';
import { Clock, Database, Recompute } from '../../src/app/index.js';
import { FleetLives } from '../../src/outlook/lives/fleet-lives.js';
import type { Api } from '../support/api.js';
import { makePageFleet } from '../support/page-fleet.js';
import { type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

const NOW = new Date('2026-11-25T09:00:00Z');
let app: NestFastifyApplication;
let manager: Api;
let skid: SmallSkid;
let seal: string;

interface Coming {
  readonly subject: string;
  readonly limitKind: string;
  readonly kind: string;
  readonly p10On: string | null;
  readonly p50On: string | null;
  readonly p90On: string | null;
  readonly reason: string;
  readonly howSure: string;
  readonly limits: readonly { readonly limit: string; readonly kind: string; readonly counts: boolean; readonly p50On: string | null; readonly said: string }[];
}

async function placeWith(kind: string, name: string, days: readonly number[], reasons: readonly string[], ageDays: number): Promise<string> {
  const { prisma } = app.get(Database);
  const item = await prisma.item.create({ data: { code: `${kind}-1`, name: kind, kind: 'other' } });
  const place = await prisma.position.create({ data: { clientId: skid.clientId, skidId: skid.id, kind, name } });
  let at = subDays(NOW, ageDays);
  const fit = (fittedAt: Date, removedAt: Date | null, removalReason: string | null) =>
    prisma.fitting.create({
      data: {
        clientId: skid.clientId,
        position: { connect: { id: place.id } },
        part: { create: { itemId: item.id } },
        fittedAt,
        fittedBy: 'A technician',
        removedAt,
        removedBy: removedAt === null ? null : 'A technician',
        removalReason,
      },
    });
  await fit(at, null, null);
  for (const [index, life] of days.entries()) {
    const from = subDays(at, life);
    await fit(from, at, reasons[index] ?? 'worn out');
    at = from;
  }
  return place.id;
}

/** Repairs of a module that is 1,500 days old, and a clean with hypochlorite in each of the last hundred weeks. */
async function recordOfModule(positionId: string): Promise<void> {
  const { prisma } = app.get(Database);
  const { clientId, id: skidId } = skid;
  const setup = { designFlowM3h: 36, airVolumeL: 250, highestTmpKpa: 100, creditLrv: 4, fibresPerModule: 9_000, oxidantLimitPpmH: 250_000 };
  await prisma.integritySetup.create({ data: { skidId, clientId, ...setup } });
  const repair = (daysAgo: number, fibres: number) => ({
    skidId,
    clientId,
    positionId,
    at: subDays(NOW, daysAgo),
    by: 'A technician',
    fibres,
    areaLostM2: 0.01 * fibres,
  });
  await prisma.fibreRepair.createMany({ data: [repair(400, 6), repair(200, 8), repair(60, 10), repair(1700, 50)] });
  const { no: loadNo } = await prisma.load.findFirstOrThrow({ where: { skidId } });
  const clean = { skidId, clientId, kind: 'CEB', chemical: 'sodium hypochlorite', strengthMgL: 500, contactMinutes: 60, loadNo };
  await prisma.clean.createMany({ data: Array.from({ length: 100 }, (_, week) => ({ ...clean, at: subDays(NOW, 7 * week + 3) })) });
}

const lifeOf = async (subject: string): Promise<Coming | undefined> => {
  const { body } = await manager.get('/api/outlooks?limitKind=life&limit=100').expect(200);
  return (body.items as Coming[]).find((row) => row.subject === subject);
};

beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => NOW;
  ({ skid } = await makePageFleet(app, NOW));
  manager = await signInAs(app, 'manager');
  seal = await placeWith('seal', 'Shaft seal', [410, 380, 450, 90, 400], ['worn out', 'failed', 'worn out', 'changed by the calendar', 'leaking'], 120);
  const module_ = await placeWith('module', 'Module 01', [2100, 2500, 1900, 2300], ['fibres torn', 'worn out', 'failed', 'leaking'], 1500);
  await recordOfModule(module_);
  await placeWith('actuator', 'Valve actuator 1', [700], ['failed'], 200);
  await app.get(Recompute).now(skid.id);
});

afterAll(() => app.close());

describe('how long machines and other parts last', () => {
  test('is forecast from lives of their kind, and from how long they have served', async () => {
    await app.get(FleetLives).now();
    await app.get(Recompute).now(skid.id);
    const outlook = await lifeOf('Shaft seal');
    expect(outlook?.kind).toBe('outlook');
    expect(outlook?.reason).toContain(
      'This seal has served 120 days; going by 6 lives of such parts in the fleet, of which 4 ended in a failure, its end is likely reached',
    );
    // Four failures near 400 days: 280 days are left, more or less.
    expect([outlook?.p10On, outlook?.p90On].map((on) => on !== null && on !== undefined)).toEqual([true, true]);
    expect(outlook?.p50On?.slice(0, 4)).toBe('2027');
    expect((outlook?.p10On ?? '') < '2027-09-01' && '2027-09-01' < (outlook?.p90On ?? '')).toBe(true);
  });

  test('is told by the rule where too few have failed, and says that no record stands behind it', async () => {
    const before = await lifeOf('Valve actuator 1');
    expect(before).toMatchObject({ kind: 'too-little-data', howSure: 'too little data' });
    expect(before?.reason).toBe(
      'Too few such parts have failed in the fleet to tell (1, 3 are needed); this actuator has served 200 days; no rule has it replaced.',
    );
    const { prisma } = app.get(Database);
    const sheet = await prisma.taskSheet.create({ data: { task: 'Replace the actuator', kind: 'part change' } });
    await prisma.upkeepRule.create({ data: { task: 'Replace the actuator', positionKind: 'actuator', skidId: skid.id, days: 730, taskSheetId: sheet.id } });
    await app.get(Recompute).now(skid.id);
    const after = await lifeOf('Valve actuator 1');
    expect(after?.reason).toMatch(/By the rule, not by record: every 730 days, which is about 8 May 2028\.$/);
  });

  test('is of a module the earliest of its age, its closed fibres and its contact with free chlorine, each told by itself', async () => {
    const outlook = await lifeOf('Module 01');
    expect(outlook?.kind).toBe('outlook');
    expect(outlook?.reason).toMatch(
      /^This module has served 4\.1 years; going by its age, its closed fibres and its contact with free chlorine its end .+ What comes first is its (age|closed fibres), in \d+ of 10 cases\.$/,
    );
    const [age, repairs, oxidant] = outlook?.limits ?? [];
    expect(age).toMatchObject({ limit: 'age', counts: true, said: 'Going by 5 lives of such parts in the fleet, of which 4 ended in a failure.' });
    // What was closed before the module was fitted went with the one before it.
    expect(repairs?.said).toContain('24 of 9,000 fibres closed in 3 repairs, 0.24 m2 of its area; at 90 closed fibres');
    // 100 contacts of 500 ppm h in 696 days, 72 a day over 1,500 days: 108,000
    expect(oxidant?.said).toMatch(
      /^About 108,000 ppm h of contact with free chlorine \(100 on record, what came before the record reckoned at the same pace\), 71\.\d a day; the maker states 250,000 ppm h\.$/,
    );
    for (const one of [age, repairs, oxidant]) expect((outlook?.p50On ?? '9999') <= (one?.p50On ?? '9999')).toBe(true);
  });

  test('is scored when the part fails, and counts for neither where it was taken out', async () => {
    const { prisma } = app.get(Database);
    await prisma.fitting.updateMany({
      where: { positionId: seal, removedAt: null },
      data: { removedAt: new Date(NOW.getTime() + 86_400_000), removedBy: 'A technician', removalReason: 'failed' },
    });
    app.get(Clock).now = () => new Date(NOW.getTime() + 2 * 86_400_000);
    await app.get(Recompute).now(skid.id);
    const { body } = await manager.get(`/api/skids/${skid.id}/outlooks?limitKind=life`).expect(200);
    const [score] = (body as { subject: string; came: string; inside: boolean | null; cameOn: string | null }[]).filter(
      ({ subject }) => subject === 'Shaft seal',
    );
    expect(score).toMatchObject({ came: 'scored', inside: false, cameOn: '2026-11-26' });
  });

  test('leaves the dues as they are: rules ask for service of machines', async () => {
    const { body } = await manager.get(`/api/dues?limit=100`).expect(200);
    expect((body.items as { limit: string }[]).every(({ limit }) => limit !== 'life')).toBe(true);
  });
});
