import { isUUID } from 'class-validator';
import { InvalidRequest } from '../errors/errors.js';
import { type PageOf, type PageQuery, readCursor, toPage } from './paging.js';

interface Named {
  readonly id: string;
  readonly name: string;
}

/** The part of a list in the order of name and id that the query asks for, as the arguments of `findMany`: one row more than is shown. */
export function pageByName({ limit, cursor }: PageQuery) {
  const order = { orderBy: [{ name: 'asc' as const }, { id: 'asc' as const }], take: limit + 1 };
  const [name, id] = readCursor(cursor, 2) ?? [];
  if (name === undefined) return { ...order, behind: {} };
  if (typeof name !== 'string' || !isUUID(id)) throw new InvalidRequest('The cursor is not one that a list of this kind gave');
  return { ...order, behind: { OR: [{ name: { gt: name } }, { name, id: { gt: String(id) } }] } };
}

export function toPageByName<Row extends Named, T>(rows: readonly Row[], limit: number, view: (row: Row) => T): PageOf<T> {
  return toPage(rows, limit, view, ({ name, id }) => [name, id]);
}

/** Words to find within a column, whatever their case; `%` and `_` mean themselves. */
export function containing(find: string | undefined) {
  return find === undefined || find === '' ? undefined : { contains: find.replace(/[\\%_]/g, '\\$&'), mode: 'insensitive' as const };
}
