import { strengthRecord } from '../src/chemicals/core/strength-record.js';
import { volumeAtLevelL } from '../src/chemicals/core/tank-volume.js';
import type { PrismaClient } from '../src/generated/prisma/client.js';
import { ANNOUNCED, ASSAYS, TANK_USERS } from './data/chemicals.js';
import { idOf, type ScenarioIds } from './insert-registry.js';
import type { Scenario, ScenarioTank } from './types.js';

const DAY_MS = 86_400_000;
const HALF_HOUR_MS = 1_800_000;
/** A titration is read to so much. */
const READ_TO_GL = 0.5;

/** What is known of tanks besides dips and deliveries. A larger fleet than the demo keeps the tanks of the demo. */
export async function insertChemicals(prisma: PrismaClient, { tanks, until }: Scenario, ids: ScenarioIds): Promise<void> {
  const tankOf = new Map(tanks.map((tank) => [tank.key, tank]));
  const about = (tank: ScenarioTank) => ({ clientId: idOf(ids.skids, tank.skidKey).clientId, tankId: idOf(ids.tanks, tank.key) });
  await prisma.tankUser.createMany({
    data: TANK_USERS.flatMap(({ tankKey, ...user }) => ofTank(tankKey, (tank) => [{ ...user, ...about(tank) }])),
  });
  await prisma.tankAssay.createMany({
    data: ASSAYS.flatMap(({ tankKey, samples }) => ofTank(tankKey, (tank) => assaysOf(tank, samples).map((assay) => ({ ...assay, ...about(tank) })))),
  });
  await prisma.clientDelivery.createMany({
    data: ANNOUNCED.flatMap(({ tankKey, inDays, ...announced }) =>
      ofTank(tankKey, (tank) => [
        {
          ...announced,
          ...about(tank),
          expectedOn: new Date(new Date(until.getTime() + inDays * DAY_MS).toISOString().slice(0, 10)),
          announcedAt: new Date(until.getTime() - DAY_MS),
          announcedBy: idOf(ids.names, tank.dips.at(-1)?.readBy ?? ''),
        },
      ]),
    ),
  });

  function ofTank<Row>(key: string, rows: (tank: ScenarioTank) => Row[]): Row[] {
    const tank = tankOf.get(key);
    return tank === undefined ? [] : rows(tank);
  }

  function assaysOf(tank: ScenarioTank, samples: readonly number[]) {
    const dips = tank.dips.map((dip) => ({ ...dip, strengthGL: null, volumeL: volumeAtLevelL(tank, dip.levelM) }));
    const reckoned = strengthRecord(dips, tank.deliveries, { usualGL: tank.strengthGL, storageC: tank.storageTemperatureC, assays: [] });
    return tank.dips.slice(-samples.length).map((dip, at) => {
      const takenAt = new Date(dip.at.getTime() + HALF_HOUR_MS);
      const strengthGL = Math.round((reckoned(takenAt) * (samples[at] ?? 1)) / READ_TO_GL) * READ_TO_GL;
      return { at: takenAt, strengthGL, value: strengthGL, basis: 'g/L', method: 'titration', by: idOf(ids.names, dip.readBy), note: '', enteredAt: takenAt };
    });
  }
}
