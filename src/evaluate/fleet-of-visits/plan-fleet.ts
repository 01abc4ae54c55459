import { buildProblem } from '../../visits/core/planner/build-problem.js';
import { checkPlan } from '../../visits/core/planner/check-plan.js';
import { improve, SHORT_TOURS } from '../../visits/core/planner/improve.js';
import { readPlan } from '../../visits/core/planner/read-plan.js';
import { cpuSeconds } from '../cpu-seconds.js';
import { BadInput, type Print, type Values } from '../evaluation.js';
import { syntheticFleet } from './synthetic-fleet.js';

/** Plans a drawn fleet: how soon there is a plan, what it costs after so many seconds, and whether it keeps everything. */
export async function planFleet(values: Values, print: Print): Promise<void> {
  const [visits, technicians, weeks, remote, seconds, seed] = ['visits', 'technicians', 'weeks', 'remote', 'seconds', 'seed'].map((name) =>
    numberOf(values, name),
  ) as [number, number, number, number, number, number];
  const input = syntheticFleet({ visits, technicians, weeks, remote, seed });
  const set = `${visits} visits, ${technicians} technicians, ${weeks} weeks${remote > 0 ? `, ${remote} remote` : ''}`;
  const startedAt = performance.now();
  const built = buildProblem(input);
  const first = readPlan(
    input,
    built,
    improve(built.problem, seed, () => 1, SHORT_TOURS),
  );
  const shared = { method: 'ours', set, seed, n: visits };
  print({
    measure: 'first_plan',
    value: Math.round((performance.now() - startedAt) * 10) / 10,
    unit: 'ms',
    ...shared,
    cost: Math.round(first.cost),
    left_out: first.leftOut.length,
  });
  const begun = cpuSeconds();
  const found = improve(built.problem, seed, () => (cpuSeconds() - begun) / seconds, SHORT_TOURS);
  const plan = readPlan(input, built, found);
  const faults = checkPlan(input, plan);
  const far = input.work.flatMap(({ site }, at) => (built.problem.nights?.far[built.visitsOf[at]?.[0] ?? 0] === 1 ? [{ site, at }] : []));
  const toursOf = new Map<number, Set<string>>();
  for (const { person, day, stops } of plan.tours) {
    for (const { work } of stops) {
      const item = far.find(({ at }) => at === work);
      if (item !== undefined) toursOf.set(item.site, (toursOf.get(item.site) ?? new Set()).add(`${person} ${Math.floor(day / 7)}`));
    }
  }
  print({
    measure: 'cost',
    value: Math.round(plan.cost),
    unit: 'minutes',
    ...shared,
    seconds,
    steps: found.steps,
    served: visits - plan.leftOut.length,
    left_out: plan.leftOut.length,
    feasible: faults.length === 0,
    ...(faults[0] === undefined ? {} : { why: faults[0].text }),
    ...(remote > 0 ? { remote_sites: toursOf.size, remote_tours: [...toursOf.values()].reduce((sum, { size }) => sum + size, 0) } : {}),
    peak_mb: Math.round(process.resourceUsage().maxRSS / 1024),
  });
}

function numberOf(values: Values, name: string): number {
  const number = Number(values[name]);
  if (!Number.isFinite(number) || number < 0) throw new BadInput(`--${name} must be a number from 0 on, not "${String(values[name])}"`);
  return number;
}
