import type { Tank } from '../generated/prisma/client.js';
import { NamedRecords } from './named-records.repository.js';

export type TankRow = Tank;

export const tankRecords = new NamedRecords<TankRow>({
  what: 'tank',
  table: (reader) => reader.tank,
  orderBy: 'name',
  searched: ['name', 'chemical'],
  include: {},
});
