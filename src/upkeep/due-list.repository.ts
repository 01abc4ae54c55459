import { Injectable } from '@nestjs/common';
import { type Caller, Database } from '../app/index.js';
import { STANDINGS, type Standing } from '../shared/standing.js';
import { COUNT_ALL, countSql, pageSql } from './due-list-sql.js';

export interface DueFilter {
  readonly skidId: string | undefined;
  readonly clientId: string | undefined;
  readonly standing: Standing | undefined;
  readonly find: string | undefined;
  readonly limit: number;
  readonly offset: number;
  readonly now: Date;
}

export interface DueRow {
  readonly id: string;
  readonly skidId: string;
  readonly skidName: string;
  readonly siteName: string;
  readonly clientName: string;
  readonly positionId: string | null;
  readonly positionName: string | null;
  readonly task: string;
  readonly standing: Standing;
  readonly earliestOn: string | null;
  readonly bestOn: string | null;
  readonly latestOn: string | null;
  readonly limit: string;
  readonly reason: string;
  readonly computedFrom: { name: string; value: string }[];
  readonly expectedMinutes: number | null;
  readonly taskSheetId: string | null;
  readonly jobId: string | null;
  readonly jobNo: number | null;
}

export interface SheetPartRow {
  readonly taskSheetId: string;
  readonly itemId: string;
  readonly code: string;
  readonly name: string;
  readonly quantity: string;
  readonly unit: string;
}

const URGENT: readonly Standing[] = ['overdue', 'due'];

/** Dues as they were last computed, judged by the day at the site. */
@Injectable()
export class DueListRepository {
  constructor(private readonly database: Database) {}

  /** One page of the due list, most urgent first, and how many there are in all: three queries at most. */
  page(caller: Caller, filter: DueFilter): Promise<{ rows: DueRow[]; total: number }> {
    const { skidId, clientId, standing, limit, offset, now } = filter;
    const like = filter.find ? `%${filter.find.replace(/[\\%_]/g, '\\$&')}%` : null;
    const values = [now.toISOString().slice(0, 10), now, skidId ?? null, clientId ?? null, like];
    const searched = like !== null;
    const isWhole = skidId === undefined && clientId === undefined && standing === undefined && !searched;
    return this.database.readFor(caller, async (reader) => {
      const read = (standings: readonly Standing[]) =>
        reader.$queryRawUnsafe<DueRow[]>(pageSql(standings, searched), ...values, offset + limit + 1, limit + 1, offset);
      // Where the urgent ones fill the page, the others need not even be planned for.
      const urgent = isWhole ? await read(URGENT) : [];
      const rows = urgent.length > limit ? urgent : await read(standing === undefined ? STANDINGS : [standing]);
      const [count] = await (isWhole
        ? reader.$queryRawUnsafe<{ total: number }[]>(COUNT_ALL)
        : reader.$queryRawUnsafe<{ total: number }[]>(countSql(standing, searched), ...values));
      return { rows, total: count?.total ?? 0 };
    });
  }

  /** The parts that the latest task sheets ask for: one query for the whole page. Clients see the work, not the store. */
  async partsOf(taskSheetIds: readonly string[]): Promise<SheetPartRow[]> {
    if (taskSheetIds.length === 0) return [];
    return this.database.prisma.$queryRaw<SheetPartRow[]>`
      SELECT v.task_sheet_id AS "taskSheetId", i.id AS "itemId", i.code, i.name, trim_scale(p.quantity)::text AS quantity, i.unit
        FROM (SELECT DISTINCT ON (task_sheet_id) id, task_sheet_id FROM task_sheet_version WHERE task_sheet_id = ANY(${[...taskSheetIds]}::uuid[])
               ORDER BY task_sheet_id, no DESC) v
        JOIN task_sheet_part p ON p.version_id = v.id JOIN item i ON i.id = p.item_id ORDER BY i.code`;
  }
}
