import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Database, Recompute } from '../../src/app/index.js';
import { temperatureCorrection } from '../../src/condition/core/temperature-correction.js';
import { hashPassword } from '../../src/people/index.js';
import { makeRuleSet } from './rules.js';
import { makeSkids, type SmallSkid } from './small-fleet.js';

const DAY_MS = 86_400_000;
const DAYS = 120;
const CYCLES_A_DAY = 8;
const SET_DAYS = 50;
export const WORK_ENTRIES = 70;
export const PASSWORD = 'lakes and longer lanes';

export interface PageFleet {
  readonly skid: SmallSkid;
  readonly tankId: string;
}

/**
 * Two skids: the first with 120 days of cycles whose permeability falls, cartridges that clog, a pump with an hour meter, a tank, more work in its log
 * than a page holds, and a task that is overdue; the second has nothing. A manager, a storekeeper and a client's operator, who sign in with one password.
 */
export async function makePageFleet(app: NestFastifyApplication, now: Date): Promise<PageFleet> {
  const { prisma } = app.get(Database);
  const [skid] = (await makeSkids(app, 'Elm', 2)) as [SmallSkid, SmallSkid];
  const { id: skidId, clientId, siteId } = skid;
  const ago = (days: number) => new Date(now.getTime() - days * DAY_MS);
  const { no: loadNo } = await prisma.load.create({ data: { skidId, clientId, kind: 'cycles', name: 'record.csv', sha256: '', by: 'test' } });
  await prisma.skid.update({ where: { id: skidId }, data: { baselineLmhBar: 200, commissionedOn: ago(DAYS) } });
  await prisma.cycle.createMany({ data: cyclesOf(skid.no, loadNo, ago) });

  const position = (kind: string, name: string) => prisma.position.create({ data: { skidId, clientId, kind, name } }).then(({ id }) => id);
  const housing = await position('pre-filter', 'Cartridge housing');
  const pump = await position('feed pump', 'Feed pump');
  const item = await prisma.item.create({ data: { code: 'CART-1', name: 'Cartridge, 5 micrometres', kind: 'cartridge' } });
  for (let days = DAYS; days > 0; days -= SET_DAYS) {
    const removedAt = days > SET_DAYS ? ago(days - SET_DAYS) : null;
    const part = { create: { itemId: item.id, setCount: 7 } };
    const position = { connect: { id: housing } };
    await prisma.fitting.create({
      data: { clientId, position, part, fittedAt: ago(days), removedAt, fittedBy: 'test', removalReason: removedAt && 'worn out' },
    });
  }
  const meter = await prisma.meter.create({ data: { clientId, positionId: pump, kind: 'run hours' } });
  await prisma.meterReading.createMany({
    data: [90, 60, 30, 1].map((days) => ({ meterId: meter.id, clientId, at: ago(days), value: 6000 - 4 * days, loadNo })),
  });
  await makeRuleSet(prisma, [skidId], [{ task: 'Grease the bearings', positionKind: 'feed pump', days: 60, graceDays: 0 }]);
  await prisma.serviceEntry.createMany({
    data: Array.from({ length: WORK_ENTRIES }, (_, index) => ({
      skidId,
      clientId,
      positionId: index === 0 ? pump : null,
      task: index === 0 ? 'Grease the bearings' : `Walk round number ${index}`,
      at: ago(DAYS - 1 - index / 2),
      doneBy: 'Jo Fell',
      loadNo,
    })),
  });
  const form = { shape: 'vertical-cylinder', diameterM: 1, heightM: 1.5, capacityL: 1100, heelL: 0, strengthGL: 120, doseMgL: 5 };
  const { id: tankId } = await prisma.tank.create({ data: { ...form, skidId, clientId, name: 'Hypochlorite tank', chemical: 'sodium hypochlorite' } });
  await prisma.tankDip.create({ data: { tankId, clientId, at: ago(1), levelM: 0.4, readBy: 'test', loadNo } });

  const passwordHash = await hashPassword(PASSWORD);
  const person = (name: string, role: string, more = {}) => prisma.person.create({ data: { name, role, email: `${role}@example.org`, passwordHash, ...more } });
  await person('Ada Brisk', 'manager');
  await person('Tove Marsh', 'storekeeper');
  await person('Ole Reed', 'client', { clientId, siteId, mayEnterReadings: true });
  await app.get(Recompute).now(skidId);
  return { skid, tankId };
}

/** Half an hour each at 36 m3/h over 600 m2, water of 12 degC; permeability falls by 0.27 % a day and is some way from its limit, the cartridge drop doubles every 16 days. */
function cyclesOf(skidNo: number, loadNo: number, ago: (days: number) => Date) {
  return Array.from({ length: DAYS * CYCLES_A_DAY }, (_, index) => {
    const day = Math.floor(index / CYCLES_A_DAY);
    const startedAt = ago(DAYS - index / CYCLES_A_DAY);
    const tmpKpa = (60 / (200 * 0.9973 ** day)) * 100 * temperatureCorrection(12, 20);
    return {
      skidNo,
      loadNo,
      startedAt,
      endedAt: new Date(startedAt.getTime() + 1_800_000),
      filtrationMinutes: 30,
      filtrateM3: 18,
      flowM3h: 36,
      quality: 0,
      feedKpa: 100 + tmpKpa,
      filtrateKpa: 100,
      temperatureC: 12,
      cartridgeDpKpa: 20 * 2 ** ((day % SET_DAYS) / 16) * 0.9 * temperatureCorrection(12, 20),
    };
  });
}
