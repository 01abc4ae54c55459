import { containing, NotFound, type PageQuery, pageBy, type Reader, takeEdited } from '../app/index.js';
import { dateOf } from './days.js';

/** What every record of the registry has. */
export interface KeptRow {
  readonly id: string;
  readonly endedOn: Date | null;
  readonly version: number;
}

export interface ListQuery extends PageQuery {
  readonly ended?: 'true' | 'false';
}

/** The calls of a table that are the same for every table of the registry. */
interface Table {
  findMany(args: object): Promise<unknown[]>;
  findUnique(args: object): Promise<unknown>;
  create(args: object): Promise<unknown>;
  updateMany(args: object): Promise<{ count: number }>;
}

interface Description {
  /** In words, for messages */
  readonly what: string;
  readonly table: (reader: Reader) => Table;
  /** The column of its name */
  readonly orderBy: 'name' | 'code' | 'kind';
  readonly searched: readonly string[];
  readonly include: object;
}

/** Records that are listed by name, edited by version and end by date. `Row` is a row with what `include` adds. */
export class NamedRecords<Row extends KeptRow> {
  constructor(private readonly about: Description) {}

  async list(reader: Reader, query: ListQuery, where: object): Promise<Row[]> {
    const { table, orderBy, searched, include } = this.about;
    const { behind, ...order } = pageBy(orderBy, query);
    const find = containing(query.find);
    const found = find === undefined ? {} : { OR: searched.map((column) => ({ [column]: find })) };
    const endedOn = query.ended === 'true' ? { not: null } : null;
    return (await table(reader).findMany({ where: { AND: [where, { endedOn }, found, behind] }, ...order, include })) as Row[];
  }

  async find(reader: Reader, id: string): Promise<Row> {
    const { table, include, what } = this.about;
    const row = (await table(reader).findUnique({ where: { id }, include })) as Row | null;
    if (row === null) throw new NotFound(what, id);
    return row;
  }

  async create(reader: Reader, columns: object): Promise<Row> {
    const { table, include } = this.about;
    return (await table(reader).create({ data: columns, include })) as Row;
  }

  /** Refuses when the record was edited after `version`, or has ended. */
  async edit(reader: Reader, id: string, version: number, columns: object): Promise<Row> {
    const { table, what } = this.about;
    const { count } = await table(reader).updateMany({ where: { id, version, endedOn: null }, data: { ...columns, version: { increment: 1 } } });
    takeEdited(count === 1 ? [id] : [], what);
    return this.find(reader, id);
  }

  end(reader: Reader, id: string, version: number, on: string): Promise<Row> {
    return this.edit(reader, id, version, { endedOn: dateOf(on) });
  }
}
