import type { CellValue, CsvColumn } from './columns.js';

/** What is wrong with one row, or with one of its cells. */
export interface RowProblem {
  /** Of the file, from 1: where the row begins */
  readonly line: number;
  readonly column: string | null;
  readonly value: string | null;
  readonly message: string;
}

export interface ReadRow {
  readonly line: number;
  /** Of the columns that the file has; an empty cell is null */
  readonly values: Readonly<Record<string, CellValue>>;
}

export type Header = { readonly kind: 'header'; readonly columns: readonly (CsvColumn | null)[] } | { readonly kind: 'unreadable'; readonly message: string };

const plain = (name: string) =>
  name
    .trim()
    .toLowerCase()
    .replaceAll(/[\s_-]+/g, ' ');

/**
 * Which column each cell of the head names, whatever its case; columns that the table does not know are passed over.
 */
export function readHead(cells: readonly string[], known: readonly CsvColumn[]): Header {
  const columns = cells.map((cell) => known.find(({ name }) => plain(name) === plain(cell)) ?? null);
  const twice = columns.find((column, at) => column !== null && columns.indexOf(column) !== at);
  if (twice) return { kind: 'unreadable', message: `The column ${twice.name} is there twice: leave one out` };
  const missing = known.filter((column) => column.needed && !columns.includes(column)).map(({ name }) => name);
  if (missing.length === 0) return { kind: 'header', columns };
  return {
    kind: 'unreadable',
    message: `The first line must name the columns, and lacks ${missing.join(', ')}. Known are ${known.map(({ name }) => name).join(', ')}`,
  };
}

type ReadRowResult = { readonly kind: 'row'; readonly row: ReadRow } | { readonly kind: 'wrong'; readonly problems: readonly RowProblem[] };

/** One row against its columns: its values, or everything that is wrong with it. */
export function readRow(cells: readonly string[], columns: readonly (CsvColumn | null)[], line: number): ReadRowResult {
  if (cells.length !== columns.length) {
    const message = `has ${cells.length} cells, and the first line has ${columns.length}: a mark is missing, or a text with a mark in it needs quotes`;
    return { kind: 'wrong', problems: [{ line, column: null, value: null, message }] };
  }
  const problems: RowProblem[] = [];
  const values: Record<string, CellValue> = {};
  for (const [at, column] of columns.entries()) {
    if (column === null) continue;
    const text = unescaped(cells[at] ?? '').trim();
    const cell = text === '' ? emptyCell(column) : unreadable(text) ? UNREADABLE : column.read(text);
    if (cell.kind === 'wrong') problems.push({ line, column: column.name, value: text.slice(0, 80), message: cell.message });
    else values[column.name] = cell.value;
  }
  return problems.length === 0 ? { kind: 'row', row: { line, values } } : { kind: 'wrong', problems };
}

const emptyCell = ({ needed }: CsvColumn) =>
  needed ? ({ kind: 'wrong', message: 'is empty, and every row needs it' } as const) : ({ kind: 'value', value: null } as const);

/** U+FFFD stands where bytes were no UTF-8; U+0000 cannot be stored. */
const unreadable = (text: string) => text.includes('\uFFFD') || text.includes('\0');
const UNREADABLE = { kind: 'wrong', message: 'holds characters that cannot be read: save the file as UTF-8' } as const;

/** Tables that we write put a mark before what a spreadsheet would take for a formula. */
const unescaped = (text: string) => (/^'[=+\-@]/.test(text) ? text.slice(1) : text);

/** Rows whose key came in an earlier row, which alone is kept. */
export function repeatedKeys(rows: readonly ReadRow[], keyOf: (row: ReadRow) => string, what: string): RowProblem[] {
  const seen = new Map<string, number>();
  return rows.flatMap((row) => {
    const key = keyOf(row);
    const earlier = seen.get(key);
    if (earlier === undefined) seen.set(key, row.line);
    return earlier === undefined
      ? []
      : [{ line: row.line, column: null, value: null, message: `is ${what} of line ${earlier} again: leave one of the two out` }];
  });
}
