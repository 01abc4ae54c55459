import { isUnitCode, UNITS } from '../../shared/units.js';
import { written } from '../format.js';
import { readDecimal } from '../readings/hand-fields.js';
import { workWords } from '../words/work.js';
import { type Draft, entryOf, photosAt, stepField } from './draft.js';
import type { StepOfSheet } from './sheet-types.js';

export const unitName = (unit: string | null): string => (unit !== null && isUnitCode(unit) ? UNITS[unit].label : (unit ?? ''));
export const withUnit = (value: number, unit: string | null): string => `${written(value)} ${unitName(unit)}`.trim();

/** The part of a step that holds its answer, by the kind of the step. */
export const ANSWER_OF = { do: 'outcome', check: 'yes', reading: 'value', photograph: 'photos' } as const;

/** Where the photographs of a step belong. */
export const photoPlace = (taskId: string, no: number): string => `task ${taskId} step ${no}`;

export const isSkipped = (draft: Draft, taskId: string, no: number): boolean => entryOf(draft, stepField(taskId, no, 'outcome')) === 'skipped';

/** Whether a step has been done or left out, with all that it asks for. */
export function isAnswered(draft: Draft, taskId: string, { no, kind, safety }: StepOfSheet): boolean {
  if (isSkipped(draft, taskId, no)) return !safety || entryOf(draft, stepField(taskId, no, 'why')) !== '';
  if (kind === 'reading') return readDecimal(entryOf(draft, stepField(taskId, no, 'value'))) !== undefined;
  if (kind === 'check') return entryOf(draft, stepField(taskId, no, 'yes')) !== '';
  if (kind === 'photograph') return photosAt(draft, photoPlace(taskId, no)).length > 0;
  return entryOf(draft, stepField(taskId, no, 'outcome')) === 'done';
}

/** In words, when a value is not as it should be. */
export function outsideLimits({ low, high, unit }: StepOfSheet, text: string): string | undefined {
  const value = readDecimal(text);
  if (value === undefined) return undefined;
  if (low !== null && value < low) return workWords.below(withUnit(low, unit));
  if (high !== null && value > high) return workWords.above(withUnit(high, unit));
  return undefined;
}

/** The limits in words; empty where there are none. */
export function limitsInWords({ low, high, unit }: StepOfSheet): string {
  if (low !== null && high !== null) return workWords.between(written(low), withUnit(high, unit));
  if (low !== null) return workWords.atLeast(withUnit(low, unit));
  return high === null ? '' : workWords.atMost(withUnit(high, unit));
}
