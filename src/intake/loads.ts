import { Injectable } from '@nestjs/common';
import { type Caller, NotFound, type PageQuery, readCursor, toPage, viewOf } from '../app/index.js';
import { type LoadDetailView, LoadPageView, toDetailView, toLoadView } from './load.dto.js';
import { LoadsRepository } from './repositories/loads.repository.js';
import { SkidAccess } from './skid-access.js';

/** The book of loads of a skid. */
@Injectable()
export class Loads {
  constructor(
    private readonly access: SkidAccess,
    private readonly loads: LoadsRepository,
  ) {}

  async list(caller: Caller, skidId: string, { limit, cursor, find = '' }: PageQuery): Promise<LoadPageView> {
    await this.access.toRead(caller, skidId);
    const [before] = readCursor(cursor, 1) ?? [];
    const rows = await this.loads.list(caller, skidId, { before: before === undefined ? undefined : wholeNumber(before), find, take: limit + 1 });
    return viewOf(
      LoadPageView,
      toPage(rows, limit, toLoadView, ({ no }) => [no]),
    );
  }

  async read(caller: Caller, id: string): Promise<LoadDetailView> {
    const load = await this.loads.find(caller, id);
    if (load === null) throw new NotFound('load', id);
    return toDetailView(load);
  }
}

/** A cursor that somebody made up leads to an empty list. */
function wholeNumber(value: string | number): number {
  return typeof value === 'number' && Number.isSafeInteger(value) && Math.abs(value) < 2 ** 31 ? value : 0;
}
