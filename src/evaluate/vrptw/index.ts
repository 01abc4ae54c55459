import { readFileSync } from 'node:fs';
import { improve } from '../../visits/core/planner/improve.js';
import { cpuSeconds } from '../cpu-seconds.js';
import { BadInput, type Options, type Print, type Values } from '../evaluation.js';
import { checkRoutes } from './check.js';
import { problemOf, readSolomon } from './solomon.js';

export const help = `
npm run evaluate -- vrptw --instance FILE [--objective distance] [--seconds 10] [--seed 1] [--best VALUE]

The planner's search on a vehicle routing problem with time windows, in Solomon's text format. The objective is the total distance, with
distances cut to one decimal. Seconds are CPU seconds of this process, its start included; one search thread, no database.
The plan is checked by a checker of its own before it is printed: one line of JSON with distance, routes, served, feasible and, where the best known
value is given, the gap in percent.
`;

export const options: Options = {
  instance: { type: 'string', file: true },
  objective: { type: 'string', default: 'distance' },
  seconds: { type: 'string', default: '10' },
  seed: { type: 'string', default: '1' },
  best: { type: 'string' },
};

export async function evaluate(values: Values, print: Print): Promise<void> {
  const { instance: file, objective, seconds, seed, best } = values;
  if (typeof file !== 'string') throw new BadInput('Say which problem: --instance FILE');
  if (objective !== 'distance') throw new BadInput(`--objective ${objective} is not known: distance`);
  const instance = readSolomon(readFileSync(file, 'utf8'));
  const limit = Number(seconds);
  const plan = improve(problemOf(instance, true), Number(seed), () => cpuSeconds() / limit);
  const routes = plan.routes.filter((route) => route.length > 0).map((route) => route.map((visit) => visit + 1));
  const { feasible, distance, why } = checkRoutes(instance, routes, true);
  const rounded = Math.round(distance * 10) / 10;
  print({
    measure: 'distance',
    value: rounded,
    unit: 'distance',
    method: 'ours',
    set: instance.name,
    distance: rounded,
    routes: routes.length,
    served: routes.flat().length,
    feasible,
    ...(why === '' ? {} : { why }),
    ...(best === undefined ? {} : { best: Number(best), gap: Math.round((distance / Number(best) - 1) * 1e4) / 100 }),
    seconds: Math.round(cpuSeconds() * 100) / 100,
    seed: Number(seed),
    steps: plan.steps,
  });
}
