import { beginFrom, type EarlierPlace } from '../planner/begin-from.js';
import { buildProblem } from '../planner/build-problem.js';
import { checkPlan } from '../planner/check-plan.js';
import { improve, SHORT_TOURS } from '../planner/improve.js';
import { makeRoom } from '../planner/make-room.js';
import { mendPlan } from '../planner/mend/mend-plan.js';
import type { PlanInput, VisitPlan } from '../planner/plan-input.js';
import { readPlan } from '../planner/read-plan.js';
import { type LeftOutReason, whyLeftOut } from '../planner/why-left-out.js';

export interface CheckedPlan {
  readonly plan: VisitPlan;
  /** By the work that is left out */
  readonly reasons: readonly LeftOutReason[];
  /** What the independent check found: a plan with a fault is not to be shown */
  readonly faults: readonly string[];
}

/**
 * Searches a plan, lets urgent work in before what can give way, checks the plan against the input alone, and says why each piece of work was left out.
 *
 * @param over asked now and then for the share of the search that is over
 * @param earlier where work was put before: the search begins there
 */
export function makePlan(input: PlanInput, seed: number, over: (steps: number) => number, earlier: readonly EarlierPlace[] = []): CheckedPlan {
  const built = buildProblem(input);
  const first = earlier.length === 0 ? undefined : beginFrom(built, earlier);
  const found = mendPlan(built, input, makeRoom(built, input, improve(built.problem, seed, over, SHORT_TOURS, first), seed), seed);
  const plan = readPlan(input, built, found);
  const reasons = plan.leftOut.map((at): LeftOutReason => {
    const work = input.work[at];
    const why = work === undefined ? 'no room' : whyLeftOut(input, work, false);
    return why === 'no room' && (work?.after ?? []).length > 0 ? 'order' : why;
  });
  return { plan, reasons, faults: checkPlan(input, plan).map(({ text }) => text) };
}
