import { CURVES } from '../baselines/curves.js';
import { climbing, fleetCurve, fromAlike, fromOtherLoads } from '../baselines/earlier-runs.js';
import type { RigRun } from './rig-run.js';

/** What every simple method says at a moment of a run, given the runs that it may learn from. */
export function simpleAt(run: RigRun, others: readonly RigRun[]): (nowS: number) => Record<string, number> {
  const quick = simpleEverywhere(run, others);
  const curve = fleetCurve(others);
  return (now) => {
    const until = run.timeS.filter((time) => time <= now).length;
    const [time, value] = [run.timeS.slice(0, until), run.value.slice(0, until)];
    const curves = Object.entries(CURVES).map(([name, put]) => [name, put({ time, value, limit: run.limit, now })] as const);
    return { ...Object.fromEntries(curves), 'fleet curve': curve({ timeS: time, value }, now), ...quick(now) };
  };
}

/** The methods that are quick enough for every second: runs of the same condition where there are any, those of other loads by the load law. */
export function simpleEverywhere(run: RigRun, others: readonly RigRun[]): (nowS: number) => Record<string, number> {
  const alike = others.filter(({ condition }) => condition === run.condition).map(climbing);
  const ofGroup = others.filter(({ group }) => group === run.group);
  const scaled = (ofGroup.length > 0 ? ofGroup : others).map(climbing);
  const { climbed } = climbing(run);
  return (now) => {
    const level = climbed[run.timeS.filter((time) => time <= now).length - 1] ?? 0;
    return { ...(alike.length === 0 ? {} : fromAlike(alike, level, now)), ...fromOtherLoads(scaled, run.strength, level, now) };
  };
}
