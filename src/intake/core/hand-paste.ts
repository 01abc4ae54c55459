import { isSignalCode, type SignalCode } from '../../shared/signals.js';
import { isUnitCode, UNITS, type UnitCode } from '../../shared/units.js';
import type { FieldFault } from './event.js';
import type { HandEntry } from './hand-entry.js';
import { type DecimalMark, readNumber } from './read-number.js';
import { readingError } from './reading-error.js';

export interface PasteColumn {
  readonly as: string;
  readonly unit?: string | undefined;
  readonly smallestDivision?: number | undefined;
}

type Column =
  | { readonly kind: 'text'; readonly as: 'time' | 'note' | 'read by' }
  | { readonly kind: 'minutes since backwash' }
  | { readonly kind: 'skip' }
  | { readonly kind: 'signal'; readonly signal: SignalCode; readonly unit: UnitCode; readonly smallestDivision: number | null }
  | { readonly kind: 'meter'; readonly meterId: string }
  | { readonly kind: 'tank'; readonly tankId: string; readonly unit: UnitCode; readonly smallestDivision: number | null };

export type PasteColumns =
  | { readonly kind: 'columns'; readonly columns: readonly Column[] }
  | { readonly kind: 'bad-columns'; readonly faults: readonly { readonly column: number; readonly message: string }[] };

export interface PasteSettings {
  readonly columns: readonly Column[];
  readonly decimal: DecimalMark;
  readonly headerLines: number;
  readonly readBy: string;
}

export interface PastedEntry {
  readonly line: number;
  readonly atText: string;
  readonly entry: HandEntry;
  readonly faults: readonly FieldFault[];
}

const PLAIN = ['time', 'minutes since backwash', 'note', 'read by', 'skip'] as const;
const isPlain = (as: string): as is (typeof PLAIN)[number] => (PLAIN as readonly string[]).includes(as);

/** What each column of a pasted table is, or what is wrong with that; exactly one column is the time. */
export function pasteColumns(named: readonly PasteColumn[]): PasteColumns {
  const faults: { column: number; message: string }[] = [];
  const columns = named.flatMap((column, i): Column[] => {
    const read = pasteColumn(column);
    if (typeof read !== 'string') return [read];
    faults.push({ column: i, message: read });
    return [];
  });
  const times = named.filter(({ as }) => as === 'time').length;
  if (times !== 1) faults.push({ column: 0, message: times === 0 ? 'no column is the time' : 'more than one column is the time' });
  return faults.length > 0 ? { kind: 'bad-columns', faults } : { kind: 'columns', columns };
}

function pasteColumn({ as, unit, smallestDivision: division }: PasteColumn): Column | string {
  const smallestDivision = division ?? null;
  if (isPlain(as)) return as === 'skip' || as === 'minutes since backwash' ? { kind: as } : { kind: 'text', as };
  const [, kind, id] = /^(meter|tank) ([0-9a-f-]{36})$/i.exec(as) ?? [];
  if (kind === 'meter' && id !== undefined) return { kind, meterId: id.toLowerCase() };
  const known = unit !== undefined && isUnitCode(unit) ? unit : undefined;
  if (kind === 'tank' && id !== undefined) {
    if (known === undefined || UNITS[known].dimension !== 'length') return `${as} needs a unit of length`;
    return { kind, tankId: id.toLowerCase(), unit: known, smallestDivision };
  }
  if (!isSignalCode(as)) return `${as} is no column that is known`;
  return known === undefined ? `${as} needs a unit` : { kind: 'signal', signal: as, unit: known, smallestDivision };
}

/** Rows of readings as they were copied from a sheet. An empty cell says that a gauge was not read. The marks between cells are those of the first line. */
export function readPaste(text: string, { columns, decimal, headerLines, readBy }: PasteSettings): PastedEntry[] {
  const lines = text.replace(/^\uFEFF/, '').split(/\r\n|\n|\r/);
  const mark = ['\t', ';', ','].find((each) => lines.some((line) => line.includes(each))) ?? '\t';
  return lines.flatMap((cellsText, i) => {
    if (i < headerLines || cellsText.trim() === '') return [];
    return [readLine(i + 1, cellsText.split(mark), columns, decimal, readBy)];
  });
}

function readLine(line: number, cells: readonly string[], columns: readonly Column[], decimal: DecimalMark, readBy: string): PastedEntry {
  const faults: FieldFault[] = [];
  const values: HandEntry['values'][number][] = [];
  const meters: HandEntry['meters'][number][] = [];
  const tanks: HandEntry['tanks'][number][] = [];
  const texts = { time: '', note: '', 'read by': readBy };
  let minutesSinceBackwash: number | null = null;
  if (cells.length > columns.length) faults.push({ column: null, value: String(cells.length), message: `cells, and ${columns.length} columns` });
  for (const [i, column] of columns.entries()) {
    const written = (cells[i] ?? '').trim().replaceAll('\0', '\uFFFD');
    const name = `column ${i + 1}`;
    if (column.kind === 'skip') continue;
    if (column.kind === 'text') {
      if (written !== '') texts[column.as] = written.slice(0, 1000);
      continue;
    }
    const number = readNumber(written, decimal, ['-', 'n/a']);
    if (number.kind === 'missing') continue;
    if (number.kind === 'not-a-number') {
      faults.push({ column: name, value: written, message: number.reason });
      continue;
    }
    const { value } = number;
    if (column.kind === 'minutes since backwash') minutesSinceBackwash = value;
    else if (column.kind === 'meter') meters.push({ meterId: column.meterId, value, column: name });
    else if (column.kind === 'signal') {
      const { signal, unit, smallestDivision } = column;
      values.push({ signal, unit, smallestDivision, value, written, column: name });
    } else {
      const { tankId, unit, smallestDivision } = column;
      tanks.push({ tankId, levelM: value * UNITS[unit].factor, strengthGL: null, readingErrorM: readingError(smallestDivision, written, unit), column: name });
    }
  }
  return { line, atText: texts.time, faults, entry: { minutesSinceBackwash, note: texts.note, readBy: texts['read by'], values, meters, tanks } };
}
