import { parse } from 'csv-parse/sync';
import { BadInput } from '../evaluation.js';

export interface Series {
  readonly id: string;
  readonly months: readonly number[];
}

/**
 * Reads a table with one series a row: an id and the need of each month, oldest first. Series with an empty month are left out and counted; a need that is no
 * whole number from 0 on is refused.
 */
export function readSeries(csv: string): { readonly series: readonly Series[]; readonly incomplete: number } {
  const [head, ...rows] = parse(csv, { relax_column_count: true, skip_empty_lines: true }) as string[][];
  const width = head?.length ?? 0;
  if (width < 2) throw new BadInput('The series file needs a head: an id column and one column a month');
  const complete = rows.filter((row) => row.length === width && row.every((cell) => cell.trim() !== ''));
  const series = complete.map(([id = '', ...cells]) => ({
    id,
    months: cells.map((cell, at) => {
      const need = Number(cell);
      if (!Number.isInteger(need) || need < 0) throw new BadInput(`Series ${id}, ${head?.[at + 1] ?? ''}: "${cell}" is no whole number from 0 on`);
      return need;
    }),
  }));
  return { series, incomplete: rows.length - complete.length };
}

/** The rule by which the literature keeps 1,046 of the car parts: at least 10 months with need, some in the first and some in the last 15 months. */
export function isOfThe1046({ months }: Series): boolean {
  const some = (part: readonly number[]) => part.some((need) => need > 0);
  return months.filter((need) => need > 0).length >= 10 && some(months.slice(0, 15)) && some(months.slice(-15));
}
