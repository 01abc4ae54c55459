import { type Day, dayInWords, dayPlus } from '../../../shared/day.js';
import type { WorkToPlan } from '../planner/plan-input.js';

import type { JobBefore, PlacedFacts } from './facts.js';

export interface PlacedWork {
  readonly work: WorkToPlan;
  readonly from: PlacedFacts;
}

export interface OrderedWork<W extends PlacedWork> {
  readonly placed: W[];
  /** Work that is to come after work that is in no plan, and why */
  readonly refused: { readonly from: PlacedFacts; readonly reason: string }[];
}

/** Puts the numbers of what each piece of work comes after to it; what comes after a job that the plan does not have, and that is not done before it, cannot be planned. Visits stay. */
export function orderOfWork<W extends PlacedWork>(all: readonly W[], firstDay: Day, days: number): OrderedWork<W> {
  const refused: { from: PlacedFacts; reason: string }[] = [];
  let placed = [...all];
  for (;;) {
    const numbers = new Map(placed.map(({ from: { kind, id } }, at) => [`${kind} ${id}`, at]));
    const numberOf = ({ id, visit }: JobBefore) => numbers.get(`job ${id}`) ?? (visit === null ? undefined : numbers.get(`visit ${visit.id}`));
    const isMissing = (job: JobBefore) => numberOf(job) === undefined && (job.visit === null || job.visit.onDay >= firstDay);
    const missing = placed.flatMap(({ from }) => (from.kind === 'visit' ? [] : (from.after ?? []).filter(isMissing).map((job) => ({ from, job }))));
    if (missing.length === 0) return { refused, placed: placed.map((each, at) => ordered(each, at, numberOf)) };
    refused.push(...missing.map(({ from, job }) => ({ from, reason: reasonOf(job, dayPlus(firstDay, days)) })));
    const gone = new Set<PlacedFacts>(missing.map(({ from }) => from));
    placed = placed.filter(({ from }) => !gone.has(from));
  }
}

function ordered<W extends PlacedWork>(each: W, at: number, numberOf: (job: JobBefore) => number | undefined): W {
  const after = (each.from.after ?? []).flatMap((job) => numberOf(job) ?? []).filter((other) => other !== at);
  return after.length === 0 ? each : { ...each, work: { ...each.work, after: [...new Set(after)] } };
}

function reasonOf({ no, visit, waits }: JobBefore, endsOn: Day): string {
  if (visit !== null && visit.onDay >= endsOn)
    return `it comes after job ${no}, whose visit is on ${dayInWords(visit.onDay, endsOn)}, after the plan: plan more days, or shift that visit`;
  return waits ? `it comes after job ${no}, which waits: see there what for` : `it comes after job ${no}, which is not in the plan`;
}
