import { Injectable } from '@nestjs/common';
import { Conflict, type Reader, viewOf } from '../app/index.js';
import { type ClientDto, type ClientEditDto, ClientView } from './clients.dto.js';
import { type ClientRow, clientRecords, openSitesOf } from './clients.repository.js';
import { dayOrNull } from './days.js';
import { Register } from './register.js';

@Injectable()
export class Clients extends Register<ClientRow, ClientDto, ClientEditDto, ClientView> {
  protected readonly records = clientRecords;

  protected override async checkEnd(tx: Reader, { id }: ClientRow): Promise<void> {
    const sites = await openSitesOf(tx, id);
    if (sites > 0) throw new Conflict(`The client still has ${sites} site(s). End these first`);
  }

  protected nameOf(row: ClientRow): string {
    return row.name;
  }

  protected view({ id, name, note, endedOn, version }: ClientRow): ClientView {
    return viewOf(ClientView, { id, name, note, endedOn: dayOrNull(endedOn), version });
  }
}
