import { Injectable } from '@nestjs/common';
import { type Caller, readCursor, toPage, viewOf } from '../../app/index.js';
import { dayPlus } from '../../shared/day.js';
import { howSure } from '../core/record/how-sure.js';
import { Waiting } from '../waiting/waiting.js';
import { ComingPageView, type ComingQuery, ComingView, LimitOfPartView } from './coming.dto.js';
import { ComingRepository, type ComingRow } from './coming.repository.js';

/** What comes first, over all skids, and how sure that is. */
@Injectable()
export class Coming {
  constructor(
    private readonly repository: ComingRepository,
    private readonly waiting: Waiting,
  ) {}

  async page(caller: Caller, { limit, cursor, find, clientId, limitKind }: ComingQuery): Promise<ComingPageView> {
    const offset = Number(readCursor(cursor, 1)?.[0] ?? 0);
    const rows = await this.repository.page(caller, { limit, offset, find, clientId, limitKind });
    // Prices are ours: a client is not told them.
    const waiting = caller.clientId === null ? await this.waiting.inWords(rows.map(({ outlookId }) => outlookId)) : new Map<string, string>();
    return viewOf(ComingPageView, {
      ...toPage(
        rows,
        limit,
        (row) => toView(row, waiting),
        () => [offset + limit],
      ),
      total: rows[0]?.total ?? 0,
    });
  }
}

function toView({ outlookId, originDay, p10Days, p50Days, p90Days, limits, total: _, ...row }: ComingRow, waiting: ReadonlyMap<string, string>): ComingView {
  const on = (days: number | null) => (days === null ? null : dayPlus(originDay, Math.round(days)));
  return viewOf(ComingView, {
    ...row,
    limits: limits.map(({ p10Days: p10, p50Days: p50, p90Days: p90, ...limit }) =>
      viewOf(LimitOfPartView, { ...limit, p10On: on(p10), p50On: on(p50), p90On: on(p90) }),
    ),
    originOn: originDay,
    p10On: on(p10Days),
    p50On: on(p50Days),
    p90On: on(p90Days),
    waiting: waiting.get(outlookId) ?? null,
    howSure: howSure({ kind: row.kind, p10Days, p50Days, p90Days }),
  });
}
