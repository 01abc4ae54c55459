import { existsSync, readFileSync } from 'node:fs';
import { parse } from 'csv-parse/sync';

/** Open data sets lie beside the repository and are no part of it. */
const FOLDER = '../shared/data';

export type Row = Readonly<Record<string, string>>;

/** Whether the files are there; where they are not, a spec says so and skips. */
export function haveOpenData(...files: readonly string[]): boolean {
  const missing = files.filter((file) => !existsSync(`${FOLDER}/${file}`));
  if (missing.length > 0) console.info(`open data not here, skipped: ${missing.map((file) => `${FOLDER}/${file}`).join(', ')}`);
  return missing.length === 0;
}

/** Rows of a CSV file with its heading as names. */
export function readOpenData(file: string): Row[] {
  return parse(readFileSync(`${FOLDER}/${file}`, 'utf8'), { columns: true, skip_empty_lines: true });
}
