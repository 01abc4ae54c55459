import { Prisma, type Tank } from '../generated/prisma/client.js';
import { NamedRecords } from './named-records.repository.js';

export type TankRow = Tank;

/** No table of levels: what the database takes for an empty column of JSON. */
export const NO_LEVEL_TABLE = Prisma.DbNull;

export const tankRecords = new NamedRecords<TankRow>({
  what: 'tank',
  table: (reader) => reader.tank,
  orderBy: 'name',
  searched: ['name', 'chemical'],
  include: {},
});
