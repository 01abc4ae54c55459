import { fromStored, toStored, type UnitCode } from '../../shared/units.js';
import { readDecimal } from '../readings/hand-fields.js';
import { registryWords } from '../words/registry.js';
import { words } from '../words.js';

type Entries = Readonly<Record<string, string>>;

/** One field of a record as it is edited. */
export interface RecordField {
  readonly name: string;
  readonly label: string;
  readonly hint?: string;
  readonly type?: 'number' | 'day' | 'time' | 'lines';
  readonly options?: readonly { readonly value: string; readonly label: string }[];
  /** Of a choice that depends on another field: what is chosen and not offered any more gives way to the first that is */
  readonly optionsOf?: (entries: Entries) => readonly { readonly value: string; readonly label: string }[];
  readonly required?: true;
  /** What an empty field means: unknown (null), as the service has it (left out), or an empty text */
  readonly empty?: 'null' | 'left out' | 'text';
  /** Of a new record */
  readonly start?: string;
  /** Of a number that the service keeps in the stored unit of its dimension: what it is written in here */
  readonly unit?: UnitCode;
  /** Of a value that is no text and no number: what was written, or what is wrong with it; and the value as it is written */
  readonly parse?: (text: string) => { readonly value: unknown } | { readonly problem: string };
  readonly write?: (value: unknown) => string;
  /** Asked only where another field says one of these */
  readonly only?: { readonly field: string; readonly is: readonly string[] };
}

export const isAsked = ({ only }: RecordField, entries: Entries): boolean => only === undefined || only.is.includes(entries[only.field] ?? '');

/** The entries with what is chosen and not offered any more put right. */
export function settled(fields: readonly RecordField[], entries: Entries): Entries {
  const now: Record<string, string> = { ...entries };
  for (const { name, optionsOf } of fields) {
    const [first, ...others] = optionsOf?.(now) ?? [];
    if (first !== undefined && ![first, ...others].some(({ value }) => value === now[name])) now[name] = first.value;
  }
  return now;
}

export function startOf(fields: readonly RecordField[], record: object | undefined): Record<string, string> {
  const values = record as Record<string, unknown> | undefined;
  return Object.fromEntries(
    fields.map(({ name, start = '', unit, write }) => [
      name,
      values === undefined ? start : write === undefined ? textOf(values[name], unit) : write(values[name]),
    ]),
  );
}

export function checkRecord(fields: readonly RecordField[], entries: Entries): Record<string, string> {
  const problems: Record<string, string> = {};
  for (const { name, label, required, type, parse } of fields.filter((field) => isAsked(field, entries))) {
    const text = (entries[name] ?? '').trim();
    if (text === '' && required) problems[name] = registryWords.need(label);
    else if (text !== '' && type === 'number' && readDecimal(text) === undefined) problems[name] = words.readings.needNumber(label);
    const parsed = text === '' ? undefined : parse?.(text);
    if (parsed !== undefined && 'problem' in parsed) problems[name] = parsed.problem;
  }
  return problems;
}

/** The record as it is sent. */
export function bodyOf(fields: readonly RecordField[], entries: Entries, record?: object): Record<string, unknown> {
  const before = startOf(fields, record);
  const values = record as Record<string, unknown> | undefined;
  const body: Record<string, unknown> = {};
  for (const field of fields) {
    const { name, type, options, optionsOf, unit, parse } = field;
    const { empty = type === 'number' || type === 'day' || (options ?? optionsOf) ? 'null' : 'text' } = field;
    const text = isAsked(field, entries) ? (entries[name] ?? '').trim() : '';
    const parsed = text === '' ? undefined : parse?.(text);
    // What nobody touched goes back as it came, without the digits that its unit cannot show.
    if (parsed !== undefined && 'value' in parsed) body[name] = parsed.value;
    else if (text !== '' && unit !== undefined)
      body[name] = values !== undefined && text === before[name] ? values[name] : toStored(readDecimal(text) ?? 0, unit);
    else if (text !== '') body[name] = type === 'number' ? readDecimal(text) : text;
    else if (empty !== 'left out') body[name] = empty === 'null' ? null : '';
  }
  return body;
}

/** As many digits as a value can have that a person entered in another unit. */
const DIGITS = 6;

function textOf(value: unknown, unit?: UnitCode): string {
  if (typeof value === 'number' && unit !== undefined) return String(Number(fromStored(value, unit).toPrecision(DIGITS)));
  return typeof value === 'string' ? value : typeof value === 'number' ? String(value) : '';
}
