import { isSignalCode, SIGNALS } from '../../shared/signals.js';
import type { Schemas } from '../api/client.js';

type Stored = Schemas['ProfileDefinitionDto'];
/** How cycles are made may be left out: the service then has its usual values. */
export type Definition = Omit<Stored, 'segmentation' | 'gates'> & Partial<Pick<Stored, 'segmentation' | 'gates'>>;
export type Column = Schemas['ProfileColumnDto'];
export type Kind = Schemas['ProfileView']['kind'];

/** A file as it is documented; what a new profile starts from. */
export const PLAIN: Definition = {
  delimiter: 'auto',
  encoding: 'utf-8',
  decimal: '.',
  skipLines: 0,
  timeColumn: 'at',
  timeFormat: 'iso',
  timeZone: 'site',
  columns: [],
  missingValues: [],
  words: {},
};

export const NO_COLUMN: Column = { column: '', as: '', unit: null, positionId: null, smallestDivision: null };

/** A column as what it is now said to be: in the unit that we store, unless another is chosen. */
export function columnAs(column: Column, as: string): Column {
  if (!isSignalCode(as)) return { ...column, as, positionId: null };
  return { ...column, as, unit: SIGNALS[as].unit, positionId: isOfMachine(as) ? column.positionId : null };
}

/** Whether the signal belongs to one machine, so that it must be said to which. */
export const isOfMachine = (as: string): boolean => isSignalCode(as) && 'ofPosition' in SIGNALS[as];

/** `Filtration = 1`, one a line, and back. */
export const wordsAsText = (words: Record<string, string>): string =>
  Object.entries(words)
    .map(([word, meaning]) => `${word} = ${meaning}`)
    .join('\n');

export function wordsFromText(text: string): Record<string, string> {
  const pairs = text.split('\n').map((line) => /^(.*?)\s*=\s*(.*)$/.exec(line.trim()));
  return Object.fromEntries(pairs.flatMap((pair) => (pair === null ? [] : [[pair[1] ?? '', pair[2] ?? '']])));
}
