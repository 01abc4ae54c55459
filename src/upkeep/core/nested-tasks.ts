import type { Day } from '../../shared/day.js';

/** A due of one position, and the smaller tasks that its task contains. */
export interface NestedDue {
  readonly ruleId: string;
  readonly contains: readonly string[];
  readonly dueOn: Day;
  readonly earliestOn: Day;
  readonly latestOn: Day;
}

/** A due that stays, with the smaller ones that are done with it. */
export interface KeptDue<T extends NestedDue> {
  readonly due: T;
  readonly absorbs: readonly T[];
}

/**
 * Nested services: a larger service absorbs a smaller one that it contains when the two fall together, so that a machine is not opened twice. They fall together
 * when the due day of the larger lies within the smaller one's earliest and latest day, or the other way round. Dues of the same position only. What
 * is absorbed by one that is itself absorbed goes with the largest.
 *
 * When the larger is done, the count of what it contains begins anew too.
 *
 * Source: common practice.
 *
 * @example absorbSmaller([]) // => []
 */
export function absorbSmaller<T extends NestedDue>(dues: readonly T[]): KeptDue<T>[] {
  const absorbedBy = (smaller: T) => dues.some((larger) => larger.contains.includes(smaller.ruleId) && fallTogether(larger, smaller));
  return dues
    .filter((due) => !absorbedBy(due))
    .map((due) => ({ due, absorbs: dues.filter((smaller) => due.contains.includes(smaller.ruleId) && fallTogether(due, smaller)) }));
}

function fallTogether(one: NestedDue, other: NestedDue): boolean {
  return liesIn(one.dueOn, other) || liesIn(other.dueOn, one);
}

function liesIn(day: Day, { earliestOn, latestOn }: NestedDue): boolean {
  return earliestOn <= day && day <= latestOn;
}
