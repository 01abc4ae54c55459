import { climbOf } from './climbed-level.js';
import { type Combination, combinationOf, combined } from './combined.js';
import type { Course, EarlierLife } from './course.js';
import type { PartAsked } from './life-prior.js';
import { expectationOf, type KnownLife, knownLife, orderTells, saidAt } from './members.js';
import { pastForecasts } from './past-forecasts.js';
import type { Quantiles } from './stretched-life.js';

/** All that is learned from earlier lives. */
export interface Fleet {
  readonly lives: readonly KnownLife[];
  /** How to put forecasts together for a condition, seen or not */
  readonly combinationFor: (condition: string) => Combination;
  /** Whether neighbours in order wore alike, so that they count more */
  readonly byOrder: boolean;
}

/** What earlier lives taught, as plain data: which way of forecasting was right when, and how far off, for conditions that are among them and for others. */
export interface LearnedCombinations {
  readonly byOrder: boolean;
  readonly seen: Combination;
  readonly unseen: Combination;
}

const seenBy = (lives: readonly KnownLife[], byOrder: boolean): Combination => combinationOf(pastForecasts(lives, { byOrder, newCondition: false }), false);

const unseenBy = (lives: readonly KnownLife[]): Combination => combinationOf(pastForecasts(lives, { byOrder: false, newCondition: true }), true);

/** Learns from earlier lives how to put forecasts together. It forecasts every life from the others, twice, and so takes its time. */
export function learnCombinations(earlier: readonly EarlierLife[]): LearnedCombinations {
  const lives = earlier.map(knownLife);
  const byOrder = orderTells(lives);
  return { byOrder, seen: seenBy(lives, byOrder), unseen: unseenBy(lives) };
}

/** The fleet of the lives that its combinations were learned from. */
export function fleetOf(earlier: readonly EarlierLife[], { byOrder, seen, unseen }: LearnedCombinations): Fleet {
  const lives = earlier.map(knownLife);
  return { lives, byOrder, combinationFor: (condition) => (lives.some((life) => life.condition === condition) ? seen : unseen) };
}

/**
 * Learns from earlier lives: how a level goes, how long lives are, which way of forecasting was right when, and how far off. Once a fleet; for conditions that were never seen only when such a part is asked about.
 */
export function learnFleet(earlier: readonly EarlierLife[]): Fleet {
  const lives = earlier.map(knownLife);
  const byOrder = orderTells(lives);
  const seen = seenBy(lives, byOrder);
  let unseen: Combination | undefined;
  return {
    lives,
    byOrder,
    combinationFor: (condition) => {
      if (lives.some((life) => life.condition === condition)) return seen;
      unseen ??= unseenBy(lives);
      return unseen;
    },
  };
}

/** Asks the fleet for one part at any moment of its course: what is left, in clock units; `null` where it cannot tell. */
export function askFleet(fleet: Fleet, asked: PartAsked, course: Course): (now: number) => Quantiles | null {
  const combination = fleet.combinationFor(asked.condition);
  const expectation = expectationOf(fleet.lives, asked, fleet.byOrder && !combination.newCondition);
  const climb = climbOf(course);
  return (now) => {
    const said = expectation === null ? null : saidAt(expectation, course, climb, now);
    return said === null ? null : combined(combination, said, now);
  };
}
