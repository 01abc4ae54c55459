import { CURVES } from '../baselines/curves.js';
import { climbing, fleetCurve, fromAlike } from '../baselines/earlier-runs.js';
import type { Scored } from '../forecast-scores.js';
import type { RigRun } from './rig-run.js';

/** What every simple method says at a moment of a run. */
export function simpleAt(run: RigRun, all: readonly RigRun[], alike: readonly RigRun[], now: number): Record<string, number> {
  const until = run.timeS.filter((time) => time <= now).length;
  const [time, value] = [run.timeS.slice(0, until), run.value.slice(0, until)];
  const curves = Object.entries(CURVES).map(([name, curve]) => [name, curve({ time, value, limit: run.limit, now })] as const);
  return {
    ...Object.fromEntries(curves),
    'fleet curve': fleetCurve(all.filter((other) => other !== run))({ timeS: time, value }, now),
    ...fromAlike(alike.map(climbing), climbing(run).climbed[until - 1] ?? 0, now),
  };
}

/** The methods that can be asked at every second of a run, from the settling of its signal on. */
export function simpleEverywhere(run: RigRun, alike: readonly RigRun[]): Record<string, Scored[]> {
  const others = alike.map(climbing);
  const { climbed } = climbing(run);
  const said = run.timeS.flatMap((now, at) => (now < run.lifeS ? [{ truth: run.lifeS - now, ...fromAlike(others, climbed[at] ?? 0, now) }] : []));
  return Object.fromEntries(
    (['life', 'look-up', 'blend'] as const).map((method) => [method, said.map((one) => ({ life: run.name, truth: one.truth, forecast: one[method] }))]),
  );
}
