import { isMatch } from 'date-fns/isMatch';
import { millionthsOf, quantityText } from '../quantity.js';

export type CellValue = string | number | null;
export type ReadCell = { readonly kind: 'value'; readonly value: CellValue } | { readonly kind: 'wrong'; readonly message: string };

/** One column of a table that people write: what it is called, whether a row needs it, and how a cell is read. */
export interface CsvColumn {
  readonly name: string;
  readonly needed: boolean;
  readonly read: (text: string) => ReadCell;
}

const value = (of: CellValue): ReadCell => ({ kind: 'value', value: of });
const wrong = (message: string): ReadCell => ({ kind: 'wrong', message });

/** The same column, which every row must fill in. */
export const needed = (column: CsvColumn): CsvColumn => ({ ...column, needed: true });

export const textColumn = (name: string, most: number): CsvColumn => ({
  name,
  needed: false,
  read: (text) => (text.length > most ? wrong(`must have at most ${most} characters, and has ${text.length}`) : value(text)),
});

export const choiceColumn = (name: string, choices: readonly string[]): CsvColumn => ({
  name,
  needed: false,
  read: (text) => (choices.includes(text) ? value(text) : wrong(`must be one of: ${choices.join(', ')}`)),
});

export const patternColumn = (name: string, pattern: RegExp, message: string): CsvColumn => ({
  name,
  needed: false,
  read: (text) => (pattern.test(text) ? value(text) : wrong(message)),
});

export const wholeColumn = (name: string, least: number, most: number): CsvColumn => ({
  name,
  needed: false,
  read: (text) =>
    /^\d{1,9}$/.test(text) && Number(text) >= least && Number(text) <= most ? value(Number(text)) : wrong(`must be a whole number from ${least} to ${most}`),
});

interface Range {
  /** Zero is none */
  readonly aboveZero?: boolean;
  readonly decimals: number;
  readonly most?: number;
}

/** A decimal number, which stays text, so that no digit is lost. A comma for the point is taken too: tables come from everywhere. */
export const decimalColumn = (name: string, { aboveZero = false, decimals, most = 999_999_999 }: Range): CsvColumn => ({
  name,
  needed: false,
  read: (text) => {
    const written = /^\d+,\d+$/.test(text) ? text.replace(',', '.') : text;
    const size = millionthsOf(written);
    const places = written.split('.')[1]?.length ?? 0;
    const fits = size !== null && size >= (aboveZero ? 1n : 0n) && size <= BigInt(most) * 1_000_000n && places <= decimals;
    if (fits) return value(quantityText(size));
    return wrong(
      `must be a number ${aboveZero ? 'above 0' : 'from 0 on'}, at most ${most}, with ${decimals} decimals at most and no mark between thousands, such as 12.5`,
    );
  },
});

const DAY = /^(19|20|21)\d{2}-\d{2}-\d{2}$/;

export const dayColumn = (name: string): CsvColumn => ({
  name,
  needed: false,
  read: (text) => (DAY.test(text) && isMatch(text, 'yyyy-MM-dd') ? value(text) : wrong('must be a day that the calendar has, such as 2026-11-30')),
});
