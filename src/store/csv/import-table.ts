import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Database, type Reader, viewOf } from '../../app/index.js';
import type { CsvColumn } from '../core/csv/columns.js';
import { type ReadRow, type RowProblem, repeatedKeys } from '../core/csv/read-table.js';
import { TableNotComplete } from './csv.errors.js';
import { type ImportQuery, ImportReportView, RowProblemView } from './import.dto.js';
import { readTable } from './table-file.js';

const LISTED = 1000;
const ROWS_AT_ONCE = 5000;

export interface Taken {
  readonly made: number;
  readonly changed: number;
}

/** A table that people may write: what its rows are, and how they are stored. */
export interface ImportedTable {
  readonly columns: readonly CsvColumn[];
  /** By which rows are told apart, whatever the case of its letters */
  readonly key: readonly string[];
  /** The key in words, as in "the supplier" */
  readonly keyName: string;
  /** What contradicts the records, row by row; in a known number of statements */
  check(tx: Reader, rows: readonly ReadRow[]): Promise<RowProblem[]>;
  /** Stores rows that were checked: new ones are made, known ones take what the table says */
  take(tx: Reader, rows: readonly ReadRow[], by: { readonly caller: Caller; readonly now: Date }): Promise<Taken>;
}

/** Ends a dry run: what it did is taken back with its transaction. */
class TakenBack extends Error {
  constructor(readonly taken: Taken) {
    super('A dry run was taken back');
  }
}

/** Reads tables that people wrote. A dry run does all that the import does, and takes it back: it cannot promise what does not happen. */
@Injectable()
export class ImportTable {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  async run(table: ImportedTable, caller: Caller, text: string, { dryRun = 'false', goodOnly = 'false' }: ImportQuery): Promise<ImportReportView> {
    const { rows, problems, count } = await readTable(text, table.columns);
    const found = [...problems, ...repeatedKeys(rows, keyOf(table.key), table.keyName)];
    const asked = { dryRun: dryRun === 'true', goodOnly: goodOnly === 'true' };
    try {
      const taken = await this.database.writeTable(async (tx) => {
        for (const some of parts(without(rows, found))) found.push(...(await table.check(tx, some)));
        if (found.length > 0 && !asked.dryRun && !asked.goodOnly) throw notComplete(found);
        const stored = await this.take(table, tx, without(rows, found), caller);
        if (asked.dryRun) throw new TakenBack(stored);
        return stored;
      });
      return reportOf(false, count, found, taken);
    } catch (error) {
      if (error instanceof TakenBack) return reportOf(true, count, found, error.taken);
      throw error;
    }
  }

  private async take(table: ImportedTable, tx: Reader, rows: readonly ReadRow[], caller: Caller): Promise<Taken> {
    const by = { caller, now: this.clock.now() };
    const sum = { made: 0, changed: 0 };
    for (const some of parts(rows)) {
      const { made, changed } = await table.take(tx, some, by);
      sum.made += made;
      sum.changed += changed;
    }
    return sum;
  }
}

const keyOf =
  (key: readonly string[]) =>
  ({ values }: ReadRow): string =>
    JSON.stringify(key.map((column) => String(values[column]).toLowerCase()));

function without(rows: readonly ReadRow[], problems: readonly RowProblem[]): ReadRow[] {
  const wrong = new Set(problems.map(({ line }) => line));
  return rows.filter(({ line }) => !wrong.has(line));
}

function* parts(rows: readonly ReadRow[]): Generator<readonly ReadRow[]> {
  for (let at = 0; at < rows.length; at += ROWS_AT_ONCE) yield rows.slice(at, at + ROWS_AT_ONCE);
}

const inOrder = (problems: readonly RowProblem[]) => [...problems].sort((a, b) => a.line - b.line);
const linesOf = (problems: readonly RowProblem[]) => new Set(problems.map(({ line }) => line)).size;

function notComplete(problems: readonly RowProblem[]): TableNotComplete {
  const fields = inOrder(problems)
    .slice(0, LISTED)
    .map(({ line, column, value, message }) => ({
      pointer: `#/lines/${line}${column === null ? '' : `/${column}`}`,
      message: `line ${line}${column === null ? '' : `, ${column}`}${value === null ? '' : ` "${value}"`}: ${message}`,
    }));
  return new TableNotComplete(
    `${linesOf(problems)} rows need a change, and nothing was written. Mend them, or ask for the right rows alone (goodOnly)`,
    fields,
  );
}

function reportOf(dryRun: boolean, rows: number, problems: readonly RowProblem[], { made, changed }: Taken): ImportReportView {
  const wrong = linesOf(problems);
  const listed = inOrder(problems).slice(0, LISTED);
  return viewOf(ImportReportView, {
    dryRun,
    rows,
    made,
    changed,
    same: rows - wrong - made - changed,
    wrong,
    problems: listed.map((problem) => viewOf(RowProblemView, problem)),
  });
}
