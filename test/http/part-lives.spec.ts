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
