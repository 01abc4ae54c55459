import type { Prisma } from '../generated/prisma/client.js';
import { NamedRecords } from './named-records.repository.js';

const WITH_POSITION = { position: { select: { name: true, skidId: true } } } as const satisfies Prisma.MeterInclude;
export type MeterRow = Prisma.MeterGetPayload<{ include: typeof WITH_POSITION }>;

export const meterRecords = new NamedRecords<MeterRow>({
  what: 'meter',
  table: (reader) => reader.meter,
  orderBy: 'kind',
  searched: ['kind'],
  include: WITH_POSITION,
});
