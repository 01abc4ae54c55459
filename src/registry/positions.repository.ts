import type { Reader } from '../app/index.js';
import type { Prisma } from '../generated/prisma/client.js';
import { NamedRecords } from './named-records.repository.js';

const WITH_PART = { fittings: { where: { removedAt: null }, include: { part: { include: { item: true } } } } } as const satisfies Prisma.PositionInclude;
export type PositionRow = Prisma.PositionGetPayload<{ include: typeof WITH_PART }>;

export const positionRecords = new NamedRecords<PositionRow>({
  what: 'position',
  table: (reader) => reader.position,
  orderBy: 'name',
  searched: ['name', 'kind'],
  include: WITH_PART,
});

export const findPosition = (reader: Reader, id: string) =>
  reader.position.findUnique({ where: { id }, select: { id: true, skidId: true, parentId: true, endedOn: true, clientId: true } });

export const openChildrenOf = (reader: Reader, id: string): Promise<number> => reader.position.count({ where: { parentId: id, endedOn: null } });
