import type { Reader } from '../app/index.js';
import type { Client } from '../generated/prisma/client.js';
import { NamedRecords } from './named-records.repository.js';

export type ClientRow = Client;

export const clientRecords = new NamedRecords<ClientRow>({
  what: 'client',
  table: (reader) => reader.client,
  orderBy: 'name',
  searched: ['name', 'note'],
  include: {},
});

export const openSitesOf = (reader: Reader, clientId: string): Promise<number> => reader.site.count({ where: { clientId, endedOn: null } });
