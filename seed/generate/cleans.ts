import type { SkidPlan } from '../plan.js';
import type { Chemical, ScenarioClean } from '../types.js';
import type { Course } from './course.js';
import { HOUR_MS } from './period.js';
import type { Stop } from './stops.js';

interface Recipe {
  readonly strengthMgL: number | null;
  readonly contactMinutes: number;
}

/** Strengths and times by common practice. Caustic is dosed to a pH and has no strength of its own. */
const MAINTENANCE: Readonly<Record<Chemical, Recipe>> = {
  'sodium hypochlorite': { strengthMgL: 200, contactMinutes: 12 },
  'sodium hydroxide': { strengthMgL: null, contactMinutes: 12 },
  'citric acid': { strengthMgL: 1500, contactMinutes: 15 },
};
const RECOVERY: Readonly<Record<Chemical, Recipe>> = {
  'sodium hypochlorite': { strengthMgL: 1000, contactMinutes: 120 },
  'sodium hydroxide': { strengthMgL: null, contactMinutes: 120 },
  'citric acid': { strengthMgL: 10_000, contactMinutes: 90 },
};
const ACID_AFTER_MS = 3 * HOUR_MS;

/** Chemical cleans of a skid, in order of time. Hypochlorite and acid never meet: one is rinsed out before the other comes. */
export function cleansOf({ plan, stops }: Course): ScenarioClean[] {
  return stops.flatMap((stop) => chemicalsOf(stop, plan).map(({ chemical, afterMs }) => cleanOf(plan.key, stop, chemical, afterMs)));
}

function chemicalsOf({ why, acid }: Stop, { tanks }: SkidPlan): { chemical: Chemical; afterMs: number }[] {
  const caustic = tanks.some(({ chemical }) => chemical === 'sodium hydroxide');
  const alkaline = (withCaustic: boolean) => [
    { chemical: 'sodium hypochlorite' as const, afterMs: 0 },
    ...(withCaustic ? [{ chemical: 'sodium hydroxide' as const, afterMs: 0 }] : []),
  ];
  const hasAcid = tanks.some(({ chemical }) => chemical === 'citric acid');
  if (why === 'CEB') return acid && hasAcid ? [{ chemical: 'citric acid', afterMs: 0 }] : alkaline(caustic);
  if (why === 'CIP') return [...alkaline(true), { chemical: 'citric acid', afterMs: ACID_AFTER_MS }];
  return [];
}

function cleanOf(skidKey: string, { why, fromMs }: Stop, chemical: Chemical, afterMs: number): ScenarioClean {
  const isCip = why === 'CIP';
  return { skidKey, kind: isCip ? 'CIP' : 'CEB', at: new Date(fromMs + afterMs), chemical, ...(isCip ? RECOVERY : MAINTENANCE)[chemical] };
}
