import { stringify } from 'csv-stringify/sync';
import type { LogProfileDefinition } from '../core/log-profile.js';

/** A batch as the file that it could have come in, so that files and batches are read by the same rules. */
export function batchAsText(
  rows: readonly Record<string, unknown>[],
  definition: Pick<LogProfileDefinition, 'delimiter' | 'skipLines' | 'decimal'> | null,
): string {
  const columns = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  const mark = definition === null || definition.delimiter === 'auto' ? ',' : definition.delimiter === 'tab' ? '\t' : definition.delimiter;
  const decimal = definition?.decimal ?? '.';
  const cell = (value: unknown): string => {
    if (value === null || value === undefined) return '';
    if (typeof value === 'number') return decimal === '.' ? String(value) : String(value).replace('.', decimal);
    return typeof value === 'string' ? value : JSON.stringify(value);
  };
  const table = rows.map((row) => columns.map((column) => cell(row[column])));
  return '\n'.repeat(definition?.skipLines ?? 0) + stringify([columns, ...table], { delimiter: mark });
}
