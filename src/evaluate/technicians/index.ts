import { readFileSync } from 'node:fs';
import { improve, SHORT_TOURS } from '../../visits/core/planner/improve.js';
import { cpuSeconds } from '../cpu-seconds.js';
import { BadInput, type Options, type Print, type Values } from '../evaluation.js';
import { checkTours } from './check.js';
import { problemOf, readTechnicians } from './instance.js';

export const help = `
npm run evaluate -- technicians --instance FILE [--seconds 10] [--seed 1] [--best VALUE]

The planner's search on a technician routing problem: homes, skills, tools, spare parts, a depot on the way. What is made small is the working time of
all technicians. Seconds are CPU seconds of this process, its start included; one search thread, no database. The plan is checked by a checker of its
own before it is printed: one line of JSON with cost, routes, served, feasible and, where the best known value is given, the gap in percent.
`;

export const options: Options = {
  instance: { type: 'string', file: true },
  seconds: { type: 'string', default: '10' },
  seed: { type: 'string', default: '1' },
  best: { type: 'string' },
};

export async function evaluate({ instance: file, seconds, seed, best }: Values, print: Print): Promise<void> {
  if (typeof file !== 'string') throw new BadInput('Say which problem: --instance FILE');
  const instance = readTechnicians(readFileSync(file, 'utf8'));
  const limit = Number(seconds);
  const plan = improve(problemOf(instance), Number(seed), () => cpuSeconds() / limit, SHORT_TOURS);
  const tours = plan.routes.flatMap((requests, technician) =>
    requests.length === 0 ? [] : [{ technician, requests, depotAt: plan.storeAt[technician] ?? -1 }],
  );
  const { feasible, cost, why } = checkTours(instance, tours);
  print({
    measure: 'cost',
    value: Math.round(cost * 100) / 100,
    unit: 'working time',
    method: 'ours',
    set: instance.name,
    cost: Math.round(cost * 100) / 100,
    routes: tours.length,
    served: tours.flatMap(({ requests }) => requests).length,
    feasible,
    ...(why === '' ? {} : { why }),
    ...(best === undefined ? {} : { best: Number(best), gap: Math.round((cost / Number(best) - 1) * 1e4) / 100 }),
    seconds: Math.round(cpuSeconds() * 100) / 100,
    seed: Number(seed),
    steps: plan.steps,
  });
}
