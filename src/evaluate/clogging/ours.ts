import { median } from 'd3-array';
import { type EarlierLife } from '../../outlook/core/clogging/course.js';
import { leftByElasticity } from '../../outlook/core/clogging/elasticity.js';
import { askFleet, type Fleet, learnFleet } from '../../outlook/core/clogging/fleet.js';
import { valueAt } from '../baselines/earlier-runs.js';
import type { RigRun } from './rig-run.js';

/** Seconds that are left: middle, and the ends of the 80 % range. */
export interface Left {
  readonly forecast: number;
  readonly low: number;
  readonly high: number;
}

const RECENT = 0.1;

function asLife({ name, condition, group, order, strength, lifeLoad, load, value, limit }: RigRun): EarlierLife {
  return {
    key: name,
    condition,
    group,
    order,
    lnStrength: Math.log(strength),
    life: lifeLoad,
    ended: 'limit',
    course: { clock: load, level: value.map((one) => one / limit) },
  };
}

export interface Learned {
  readonly fleet: Fleet;
  readonly runs: readonly RigRun[];
}

export const learn = (runs: readonly RigRun[]): Learned => ({ fleet: learnFleet(runs.map(asLife)), runs });

/** Asks what was learned for a run, at any second of it. */
export function askFor({ fleet, runs }: Learned, run: RigRun): (nowS: number) => Left | null {
  const life = asLife(run);
  const ask = askFleet(fleet, life, life.course);
  const ofGroup = runs.filter(({ group }) => group === run.group);
  const paceOf = paceAhead(ofGroup.length > 0 ? ofGroup : runs);
  return (nowS) => {
    const now = loadAt(run, nowS);
    const left = ask(now);
    if (left === null) return null;
    const rate = recentRate(run, now, nowS) * paceOf(now / (now + left.p50));
    return { forecast: left.p50 / rate, low: left.p10 / rate, high: left.p90 / rate };
  };
}

/** The same with nothing to learn from: the signal of the run alone. */
export function withoutLives(run: RigRun): (nowS: number) => Left {
  const { course } = asLife(run);
  return (nowS) => {
    const now = loadAt(run, nowS);
    const left = leftByElasticity(course, null, now);
    const rate = recentRate(run, now, nowS);
    return { forecast: left.p50 / rate, low: left.p10 / rate, high: left.p90 / rate };
  };
}

const loadAt = (run: RigRun, timeS: number) => valueAt(run.timeS, run.load, timeS);

/** Load a second over the last tenth of what has run. */
function recentRate(run: RigRun, now: number, nowS: number): number {
  return (RECENT * now) / (nowS - valueAt(run.load, run.timeS, (1 - RECENT) * now));
}

const PACE_STEPS = 20;

/** How the load rate to the end compared with the recent one, in earlier runs at each twentieth of life: pumps slow down as filters clog. */
function paceAhead(runs: readonly RigRun[]): (u: number) => number {
  const paces = Array.from({ length: PACE_STEPS }, (_, step) => {
    const u = Math.max(1, step) / PACE_STEPS;
    return median(runs, (run) => {
      const now = u * run.lifeLoad;
      const nowS = valueAt(run.load, run.timeS, now);
      return (run.lifeLoad - now) / (run.lifeS - nowS) / recentRate(run, now, nowS);
    });
  });
  return (u) => paces[Math.min(PACE_STEPS - 1, Math.round(u * PACE_STEPS))] ?? 1;
}
