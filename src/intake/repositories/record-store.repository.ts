import { Injectable } from '@nestjs/common';
import { type IncomingRecord, mergeRecords, type StoredRecord } from '../core/merge-records.js';
import type { ProblemList } from '../core/problem-list.js';
import type { RecordTable } from './record-tables.js';
import { type Statements, toJsonb } from './transactions.repository.js';

const ROWS_AT_ONCE = 2_000;

export interface LoadScope {
  readonly skidId: string;
  readonly loadNo: number;
  readonly replaceDiffering: boolean;
}

export interface StoreCounts {
  kept: number;
  known: number;
  differing: number;
  replaced: number;
}

export const noCounts = (): StoreCounts => ({ kept: 0, known: 0, differing: 0, replaced: 0 });

export function addCounts(sum: StoreCounts, more: StoreCounts): void {
  sum.kept += more.kept;
  sum.known += more.known;
  sum.differing += more.differing;
  sum.replaced += more.replaced;
}

/** Stores the records of a load, each once. The lock of the skid keeps other loads away between reading and writing. */
@Injectable()
export class RecordStore {
  async store<Row extends object>(
    tx: Statements,
    table: RecordTable<Row>,
    incoming: readonly IncomingRecord<Row>[],
    scope: LoadScope,
    problems: ProblemList,
  ): Promise<StoreCounts> {
    const sum = noCounts();
    for (let from = 0; from < incoming.length; from += ROWS_AT_ONCE) {
      addCounts(sum, await this.storeSome(tx, table, incoming.slice(from, from + ROWS_AT_ONCE), scope, problems));
    }
    return sum;
  }

  /** The stored rows that have the key of one of these. */
  async stored<Row extends object>(tx: Statements, table: RecordTable<Row>, rows: readonly Row[]): Promise<StoredRecord<Row>[]> {
    const keys = JSON.stringify(rows.map((row) => Object.fromEntries(table.key.map((field) => [field, row[field]]))));
    const fields = fieldsOf(table).map((field) => `t.${column(table, field)} AS "${field}"`);
    const { rows: found } = await tx.query<Row & { loadNo: number }>(
      `SELECT ${fields.join(', ')}, t.load_no AS "loadNo" FROM "${table.name}" t
       JOIN (SELECT DISTINCT * FROM jsonb_to_recordset($1::jsonb) AS r(${recordType(table, table.key)})) k ON ${sameKey(table, 't', 'k')}`,
      [keys],
    );
    return found.map(({ loadNo, ...row }) => ({ row: row as unknown as Row, loadNo }));
  }

  private async storeSome<Row extends object>(
    tx: Statements,
    table: RecordTable<Row>,
    incoming: readonly IncomingRecord<Row>[],
    scope: LoadScope,
    problems: ProblemList,
  ): Promise<StoreCounts> {
    const stored = await this.stored(
      tx,
      table,
      incoming.map(({ row }) => row),
    );
    const keyOf = (row: Row) => JSON.stringify(table.key.map((field) => row[field]));
    const merged = mergeRecords(incoming, stored, { keyOf, compared: table.compared, carried: table.carried, ...scope });
    for (const { line, field, value, stored: was } of merged.differences) {
      problems.add('differing', line, field, `${shown(value)}; stored: ${shown(was)}`, 'differs from what is stored');
    }
    await this.insert(tx, table, merged.toInsert, scope.loadNo);
    await this.update(tx, table, merged.toUpdate, scope.loadNo);
    await this.putAside(tx, table.name, merged.putAside, scope);
    return merged;
  }

  private async insert<Row extends object>(tx: Statements, table: RecordTable<Row>, rows: readonly Row[], loadNo: number): Promise<void> {
    if (rows.length === 0) return;
    const fields = fieldsOf(table);
    await tx.query(
      `INSERT INTO "${table.name}" (${fields.map((field) => column(table, field)).join(', ')}, load_no)
       SELECT ${fields.map((field) => `r."${field}"`).join(', ')}, $2 FROM jsonb_to_recordset($1::jsonb) AS r(${recordType(table, fields)})`,
      [toJsonb(rows), loadNo],
    );
  }

  private async update<Row extends object>(tx: Statements, table: RecordTable<Row>, rows: readonly Row[], loadNo: number): Promise<void> {
    if (rows.length === 0) return;
    const changing = [...table.compared, ...table.carried];
    const changes = changing.map((field) => `${column(table, field)} = r."${field}"`);
    await tx.query(
      `UPDATE "${table.name}" t SET ${changes.join(', ')}, load_no = $2
       FROM jsonb_to_recordset($1::jsonb) AS r(${recordType(table, [...table.key, ...changing])}) WHERE ${sameKey(table, 't', 'r')}`,
      [toJsonb(rows), loadNo],
    );
  }

  private async putAside(tx: Statements, kind: string, records: readonly StoredRecord<object>[], { skidId, loadNo }: LoadScope): Promise<void> {
    if (records.length === 0) return;
    await tx.query(
      `INSERT INTO replaced_record (skid_id, kind, record, load_no, replaced_by_load)
       SELECT $1, $2, r.row, r."loadNo", $4 FROM jsonb_to_recordset($3::jsonb) AS r(row jsonb, "loadNo" int)`,
      [skidId, kind, toJsonb(records), loadNo],
    );
  }
}

const fieldsOf = <Row extends object>(table: RecordTable<Row>) => Object.keys(table.columns) as (keyof Row & string)[];
const column = <Row extends object>(table: RecordTable<Row>, field: keyof Row) => `"${table.columns[field][0]}"`;
const recordType = <Row extends object>(table: RecordTable<Row>, fields: readonly (keyof Row & string)[]) =>
  fields.map((field) => `"${field}" ${table.columns[field][1]}`).join(', ');
const sameKey = <Row extends object>(table: RecordTable<Row>, left: string, right: string) =>
  table.key.map((field) => `${left}.${column(table, field)} ${field === table.nullableKey ? 'IS NOT DISTINCT FROM' : '='} ${right}."${field}"`).join(' AND ');

function shown(value: unknown): string {
  if (value === null || value === '') return 'nothing';
  return value instanceof Date ? value.toISOString() : String(value as string | number);
}
