import type { Course, EarlierLife } from './course.js';
import { askFleet, type Fleet } from './fleet.js';
import { type LifePrior, lifePrior, type PartAsked } from './life-prior.js';
import { knownLife } from './members.js';
import type { Quantiles } from './stretched-life.js';

/** Below so many lives that ended at their limit the course of a life cannot be told. */
const FEWEST_ENDED = 3;

/** What a fleet and the earlier lives at the part's own place say of it. */
export interface SaidByLives {
  /** Of its whole life; null: no life ever ended */
  readonly prior: LifePrior | null;
  /** Of what is left, with the course of its own signal; null: too few lives, or no signal yet */
  readonly left: Quantiles | null;
  readonly lives: number;
}

/**
 * Asks a learned fleet for a part whose place may not be among what the fleet learned from: the place's own earlier lives are added, and counted once. How to weigh the ways of forecasting stays as learned.
 */
export function askWithOwn(fleet: Fleet, own: readonly EarlierLife[], asked: PartAsked, course: Course, now: number): SaidByLives {
  const names = new Set(own.map(({ key }) => key));
  const lives = [...fleet.lives.filter(({ key }) => !names.has(key)), ...own.map(knownLife)];
  const ended = lives.filter((life) => life.ended === 'limit');
  const prior = lifePrior(lives, asked, () => 1);
  if (ended.length < FEWEST_ENDED || course.clock.length === 0 || !(now > 0)) return { prior, left: null, lives: lives.length };
  const known = fleet.lives.find(({ ended: end }) => end === 'limit')?.condition;
  const isSeen = ended.some(({ condition }) => condition === asked.condition);
  const whole: Fleet = { ...fleet, lives, combinationFor: (condition) => fleet.combinationFor(isSeen && known !== undefined ? known : condition) };
  const left = askFleet(whole, asked, course)(now);
  const isSound = left !== null && [left.p10, left.p50, left.p90].every((value) => Number.isFinite(value) && value > 0);
  return { prior, left: isSound ? left : null, lives: lives.length };
}
