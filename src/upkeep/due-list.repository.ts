import { Injectable } from '@nestjs/common';
import { type Caller, Database, likeOf } from '../app/index.js';
import { STANDINGS, type Standing } from '../shared/standing.js';
import { COUNT_ALL, countSql, PARTS_OF_SHEETS, pageSql } from './due-list-sql.js';

export interface DueFilter {
  readonly skidId: string | undefined;
  readonly clientId: string | undefined;
  readonly siteId: string | undefined;
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
  readonly siteId: string;
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
  /** Of the whole list; narrowed ones are counted by themselves */
  readonly total?: number;
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

interface Statement {
  /** Planned once a session and used again; only for statements of which there are few */
  readonly name?: string;
  readonly text: string;
  readonly values: unknown[];
}
type Read = <Row extends object>(statement: Statement) => Promise<Row[]>;

/** Dues as they were last computed, judged by the day at the site. */
@Injectable()
export class DueListRepository {
  constructor(private readonly database: Database) {}

  /** One page of the due list, most urgent first, and how many there are in all: three queries at most. */
  page(caller: Caller, { skidId, clientId, siteId, standing, find, limit, offset, now }: DueFilter): Promise<{ rows: DueRow[]; total: number }> {
    const like = likeOf(find);
    const values = [now, skidId ?? null, clientId ?? null, like, siteId ?? null];
    const narrowed = { standing, bySkid: skidId !== undefined, byClient: clientId !== undefined, bySite: siteId !== undefined, byWords: like !== null };
    const isWhole = standing === undefined && values.slice(1).every((value) => value === null);
    const day = now.toISOString().slice(0, 10);
    return this.reading(caller, async (read) => {
      const rowsOf = (standings: readonly Standing[], name?: string) =>
        read<DueRow>({
          text: pageSql(day, standings, narrowed, isWhole),
          values: [...values, offset + limit + 1, limit + 1, offset],
          ...(name === undefined ? {} : { name }),
        });
      // Where the urgent ones fill the page, the others need not even be planned for.
      const urgent = isWhole ? await rowsOf(URGENT, `dues urgent ${day}`) : [];
      const rows = urgent.length > limit ? urgent : await rowsOf(standing === undefined ? STANDINGS : [standing]);
      const counted = rows[0]?.total;
      if (counted !== undefined) return { rows, total: counted };
      const [count] = await read<{ total: number }>(isWhole ? { text: COUNT_ALL, values: [] } : { text: countSql(day, narrowed), values });
      return { rows, total: count?.total ?? 0 };
    });
  }

  /** The parts that the latest task sheets ask for: one query for the whole page. Clients see the work, not the store. */
  async partsOf(taskSheetIds: readonly string[]): Promise<SheetPartRow[]> {
    if (taskSheetIds.length === 0) return [];
    return (await this.database.pool.query<SheetPartRow>({ name: 'parts of dues', text: PARTS_OF_SHEETS, values: [taskSheetIds] })).rows;
  }

  /** Staff read through the pool, whose sessions keep the plans of named statements; a client reads in the transaction that shows no other client's rows. */
  private reading<T>(caller: Caller, work: (read: Read) => Promise<T>): Promise<T> {
    if (caller.clientId === null) return work(async <Row extends object>(statement: Statement) => (await this.database.pool.query<Row>(statement)).rows);
    return this.database.readFor(caller, (reader) => work(({ text, values }) => reader.$queryRawUnsafe(text, ...values)));
  }
}
