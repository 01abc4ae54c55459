import { Injectable } from '@nestjs/common';
import { type Caller, Clock, readCursor, toPage, viewOf } from '../app/index.js';
import { DueListRepository, type DueRow, type SheetPartRow } from './due-list.repository.js';
import { BasisView, DuePageView, type DueQuery, DueView, NeededPartView } from './upkeep.dto.js';

/** What is due, when and why. */
@Injectable()
export class DueList {
  constructor(
    private readonly repository: DueListRepository,
    private readonly clock: Clock,
  ) {}

  async page(caller: Caller, query: DueQuery): Promise<DuePageView> {
    const offset = Number(readCursor(query.cursor, 1)?.[0] ?? 0);
    const { limit, skidId, clientId, standing, find } = query;
    const rows = await this.repository.page(caller, { limit, offset, skidId, clientId, standing, find, now: this.clock.now() });
    const sheetIds = [...new Set(rows.flatMap(({ taskSheetId }) => (taskSheetId === null ? [] : [taskSheetId])))];
    const parts = caller.role === 'client' ? [] : await this.repository.partsOf(sheetIds);
    const page = toPage(
      rows,
      limit,
      (row) => toView(row, parts),
      () => [offset + limit],
    );
    return viewOf(DuePageView, { ...page, total: rows[0]?.total ?? 0 });
  }
}

function toView(row: DueRow, parts: readonly SheetPartRow[]): DueView {
  const { id, skidId, skidName, siteName, clientName, positionName, task, standing, earliestOn, bestOn, latestOn, limit, reason, expectedMinutes } = row;
  return viewOf(DueView, {
    id,
    skidId,
    skidName,
    siteName,
    clientName,
    positionName,
    task,
    standing,
    earliestOn,
    bestOn,
    latestOn,
    limit,
    reason,
    computedFrom: row.computedFrom.map(({ name, value }) => viewOf(BasisView, { name, value })),
    expectedMinutes,
    parts: parts
      .filter((part) => part.taskSheetId === row.taskSheetId)
      .map(({ itemId, code, name, quantity, unit }) => viewOf(NeededPartView, { itemId, code, name, quantity, unit })),
  });
}
