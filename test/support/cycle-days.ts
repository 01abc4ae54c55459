import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Database } from '../../src/app/index.js';
import { temperatureCorrection } from '../../src/condition/core/temperature-correction.js';
import { dayPlus } from '../../src/shared/day.js';
import type { SmallSkid } from './small-fleet.js';

/**
 * Cycles of a small skid, six a day of half an hour at 36 m3/h (60 L/m2 h over 600 m2) and 12 degC, from a day on: its permeability at 20 degC falls from 200 L/m2 h bar, by 0.5 % a day unless said otherwise.
 * The first day is the one after its commissioning.
 */
export async function runFor(
  app: NestFastifyApplication,
  { id: skidId, no, clientId }: SmallSkid,
  firstDay: string,
  days: number,
  fall = 0.005,
): Promise<void> {
  const { prisma } = app.get(Database);
  await prisma.skid.update({ where: { id: skidId }, data: { baselineLmhBar: 200, commissionedOn: new Date(dayPlus(firstDay, -1)) } });
  const load = await prisma.load.create({ data: { skidId, clientId, kind: 'cycles', name: 'test', sha256: '', by: 'test' } });
  await prisma.cycle.createMany({
    data: Array.from({ length: days * 6 }, (_, index) => {
      const day = Math.floor(index / 6);
      const tmpKpa = (60 / (200 * (1 - fall) ** day)) * 100 * temperatureCorrection(12, 20);
      const startedAt = new Date(`${dayPlus(firstDay, day)}T0${(index % 6) + 2}:00:00Z`);
      const cycle = { startedAt, endedAt: new Date(startedAt.getTime() + 1_800_000), filtrationMinutes: 30, filtrateM3: 18, flowM3h: 36 };
      return { ...cycle, skidNo: no, feedKpa: 100 + tmpKpa, filtrateKpa: 100, temperatureC: 12, quality: 0, loadNo: load.no };
    }),
  });
}
