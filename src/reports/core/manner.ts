import { moment, number } from '../../shared/format.js';
import { type UnitChoice, unitDigits, unitLabel } from '../../shared/unit-choice.js';
import { fromStored, type UnitCode } from '../../shared/units.js';
import type { Period } from './period-data.js';

/** How a report is written: in which units, by which clocks, and when. */
export interface Manner {
  readonly units: UnitChoice;
  readonly timeZone: string;
  readonly now: Date;
}

/** The same for the report of a period. */
export interface PeriodManner extends Manner {
  readonly period: Period;
}

/** A stored value in a unit of the reader, with the decimals that suit the unit, and more where asked. */
export const inUnit = (value: number | null, code: UnitCode, moreDigits = 0): string =>
  number(value === null ? null : fromStored(value, code), unitDigits(code) + moreDigits);

export const withUnit = (value: number | null, code: UnitCode): string => (value === null ? number(null) : `${inUnit(value, code)} ${unitLabel(code)}`);

export const at = (when: Date | string | null, { timeZone }: Pick<Manner, 'timeZone'>): string => moment(when, timeZone);
