import { minutes as inWords } from '../format.js';
import { planWords } from '../words/plan.js';
import type { Limit } from './drawing/nearest-limits.js';
import { clockOf } from './drawing/tour-geometry.js';
import { limitedStays, type ShownPlan } from './shown-plan.js';

/** Of a visit of two people the nearer limit counts. */
export function limitsByLine(plan: ShownPlan): ReadonlyMap<string, Limit> {
  const limits = new Map<string, Limit>();
  for (const tour of plan.tours) {
    for (const { line, limit } of limitedStays(tour, plan)) {
      const known = line === undefined ? undefined : limits.get(line.id);
      if (line !== undefined && limit !== null && (known === undefined || limit.at < known.at)) limits.set(line.id, limit);
    }
  }
  return limits;
}

export function limitInWords(limit: Limit | null, end: number): string {
  if (limit === null) return planWords.limits.none;
  const spare = Math.max(0, Math.round(limit.at - end));
  return `${planWords.limits[limit.by](clockOf(limit.at))}; ${spare === 0 ? planWords.limits.noSpare : planWords.limits.spare(inWords(spare))}`;
}
