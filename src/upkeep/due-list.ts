import { Injectable } from '@nestjs/common';
import { type Caller, Clock, InvalidRequest, readCursor, toPage, viewOf } from '../app/index.js';
import { DueListRepository, type DueRow, type SheetPartRow } from './due-list.repository.js';
import { BasisView, DuePageView, type DueQuery, DueView, NeededPartView } from './upkeep.dto.js';

/** Further down no list goes. */
const MOST = 1_000_000;

/** What is due, when and why. */
@Injectable()
export class DueList {
  constructor(
    private readonly repository: DueListRepository,
    private readonly clock: Clock,
  ) {}

  async page(caller: Caller, query: DueQuery): Promise<DuePageView> {
    const offset = offsetOf(query.cursor);
    const { limit, skidId, clientId, siteId, standing, find } = query;
    const { rows, total } = await this.repository.page(caller, { limit, offset, skidId, clientId, siteId, standing, find, now: this.clock.now() });
    const sheetIds = [...new Set(rows.flatMap(({ taskSheetId }) => (taskSheetId === null ? [] : [taskSheetId])))];
    const parts = caller.role === 'client' ? [] : await this.repository.partsOf(sheetIds);
    const page = toPage(
      rows,
      limit,
      (row) => toView(row, parts),
      () => [offset + limit],
    );
    return viewOf(DuePageView, { ...page, total });
  }
}

function offsetOf(cursor: string | undefined): number {
  const [offset = 0] = readCursor(cursor, 1) ?? [];
  if (typeof offset === 'number' && Number.isInteger(offset) && offset >= 0 && offset <= MOST) return offset;
  throw new InvalidRequest('The cursor is not one that a list of this kind gave', [{ pointer: 'cursor', message: `"${cursor}" is not a cursor` }]);
}

function toView(row: DueRow, parts: readonly SheetPartRow[]): DueView {
  const {
    id,
    skidId,
    skidName,
    siteId,
    siteName,
    clientName,
    positionId,
    positionName,
    task,
    standing,
    earliestOn,
    bestOn,
    latestOn,
    limit,
    reason,
    expectedMinutes,
  } = row;
  const { taskSheetId, jobId, jobNo } = row;
  return viewOf(DueView, {
    id,
    skidId,
    skidName,
    siteId,
    siteName,
    clientName,
    positionId,
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
    taskSheetId,
    jobId,
    jobNo,
    parts: parts
      .filter((part) => part.taskSheetId === row.taskSheetId)
      .map(({ itemId, code, name, quantity, unit }) => viewOf(NeededPartView, { itemId, code, name, quantity, unit })),
  });
}
