import type { WorkToPlan } from './plan-input.js';

type PartsOfWork = Pick<WorkToPlan, 'partsFrom' | 'partsSooner'>;

/**
 * The first day on which anybody at all has the parts of work; null: nobody within the plan.
 *
 * @example firstWithParts({ partsFrom: 3, partsSooner: new Map([[1, 0]]) }) // => 0
 * @example firstWithParts({ partsFrom: null }) // => null
 */
export function firstWithParts({ partsFrom, partsSooner }: PartsOfWork): number | null {
  const days = [...(partsSooner?.values() ?? []), ...(partsFrom === null ? [] : [partsFrom])];
  return days.length === 0 ? null : Math.min(...days);
}

/**
 * Whether somebody has the parts of work on a day: out of their own van, or from the day on which everybody has.
 *
 * @example hasParts({ partsFrom: 3, partsSooner: new Map([[1, 0]]) }, 1, 2) // => true
 * @example hasParts({ partsFrom: 3, partsSooner: new Map([[1, 0]]) }, 0, 2) // => false
 */
export const hasParts = ({ partsFrom, partsSooner }: PartsOfWork, person: number, day: number): boolean =>
  day >= (partsSooner?.get(person) ?? partsFrom ?? Number.POSITIVE_INFINITY);
