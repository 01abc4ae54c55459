import type { Item } from '../generated/prisma/client.js';
import { NamedRecords } from './named-records.repository.js';

export type ItemRow = Item;

export const itemRecords = new NamedRecords<ItemRow>({
  what: 'item',
  table: (reader) => reader.item,
  orderBy: 'code',
  searched: ['code', 'name', 'note'],
  include: {},
});
