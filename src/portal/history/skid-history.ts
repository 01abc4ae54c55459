import { Injectable } from '@nestjs/common';
import { type Caller, faultIn, InvalidRequest, readCursor, toPage, viewOf } from '../../app/index.js';
import { SkidAccess } from '../../intake/index.js';
import { HistoryEntryView, type HistoryQuery, SkidHistoryView } from './history.dto.js';
import { HistoryRepository } from './history.repository.js';

/** All that happened at a skid, the latest first, the same for its owner and for staff. */
@Injectable()
export class SkidHistory {
  constructor(
    private readonly access: SkidAccess,
    private readonly history: HistoryRepository,
  ) {}

  async list(caller: Caller, skidId: string, { limit, cursor, find = '', kind, from, to }: HistoryQuery): Promise<SkidHistoryView> {
    if (from !== undefined && to !== undefined && from > to) throw faultIn('from', `must not lie after the last day ${to}; seen: ${from}`);
    await this.access.toRead(caller, skidId);
    const rows = await this.history.list(caller, skidId, { kind, from, to, find, behind: behindCursor(cursor), take: limit + 1 });
    const page = toPage(
      rows,
      limit,
      ({ total: _, ...row }) => viewOf(HistoryEntryView, row),
      ({ at, id }) => [at.toISOString(), id],
    );
    return viewOf(SkidHistoryView, { ...page, total: rows[0]?.total ?? 0 });
  }
}

function behindCursor(cursor: string | undefined): [string, string] | null {
  const key = readCursor(cursor, 2);
  if (key === undefined) return null;
  const [at, id] = key.map(String) as [string, string];
  if (Number.isNaN(Date.parse(at)) || id.includes('\0')) throw new InvalidRequest('The cursor is not one that a list of this kind gave');
  return [new Date(at).toISOString(), id];
}
