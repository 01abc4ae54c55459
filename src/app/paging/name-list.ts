import { isUUID } from 'class-validator';
import { foreignCursor, type PageOf, type PageQuery, readCursor, toPage } from './paging.js';

type Ascending<Column extends string> = [{ [C in Column]: 'asc' }, { id: 'asc' }];
type Behind<Column extends string> = { OR?: ({ [C in Column]: string | { gt: string } } & { id?: { gt: string } })[] };

/** The part of a list in the order of a column and the id that the query asks for, as arguments of `findMany`: one row more than is shown. */
export function pageBy<Column extends string>(column: Column, { limit, cursor }: PageQuery) {
  const order = { orderBy: [{ [column]: 'asc' }, { id: 'asc' }] as Ascending<Column>, take: limit + 1 };
  const [value, id] = readCursor(cursor, 2) ?? [];
  if (value === undefined) return { ...order, behind: {} as Behind<Column> };
  if (typeof value !== 'string' || !isUUID(id)) throw foreignCursor(cursor);
  return { ...order, behind: { OR: [{ [column]: { gt: value } }, { [column]: value, id: { gt: String(id) } }] } as Behind<Column> };
}

export function toPageBy<Column extends string, Row extends { readonly id: string } & { readonly [C in Column]: string }, T>(
  column: Column,
  rows: readonly Row[],
  limit: number,
  view: (row: Row) => T,
): PageOf<T> {
  return toPage(rows, limit, view, (row) => [row[column], row.id]);
}

const asItself = (find: string) => find.replace(/[\\%_]/g, '\\$&');

/** Words to find within a column, whatever their case; `%` and `_` mean themselves. */
export function containing(find: string | undefined) {
  return find === undefined || find === '' ? undefined : { contains: asItself(find), mode: 'insensitive' as const };
}

/** The same as a pattern for ILIKE; null where nothing is looked for. */
export const likeOf = (find: string | undefined) => (find === undefined || find === '' ? null : `%${asItself(find)}%`);
