import { readFileSync } from 'node:fs';
import { parse } from 'csv-parse/sync';
import { BadInput } from './evaluation.js';

export type Row = Readonly<Record<string, string>>;

/** Rows of a CSV file with its heading as names; says which file and column it misses where it is not what was asked for. */
export function readTable(file: string, columns: readonly string[]): Row[] {
  let rows: Row[];
  try {
    rows = parse(readFileSync(file, 'utf8'), { columns: true, skip_empty_lines: true });
  } catch (error) {
    throw new BadInput(`${file} cannot be read as a table of values separated by commas: ${error instanceof Error ? error.message : String(error)}`);
  }
  const [first] = rows;
  if (first === undefined) throw new BadInput(`${file} holds no rows`);
  const missing = columns.filter((column) => first[column] === undefined);
  if (missing.length > 0) throw new BadInput(`${file} lacks ${missing.join(', ')}; it has ${Object.keys(first).join(', ')}`);
  return rows;
}

/** The first of the names that is a column; `null` where none is. */
export function columnOf(rows: readonly Row[], names: readonly string[]): string | null {
  return names.find((name) => rows[0]?.[name] !== undefined) ?? null;
}

/** A number, or `null` for an empty cell or one that is none. */
export function numberIn(row: Row, column: string): number | null {
  const text = row[column]?.trim() ?? '';
  const value = Number(text);
  return text === '' || !Number.isFinite(value) ? null : value;
}
