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

/**
 * Learns from earlier lives: how a level goes, how long lives are, which way of forecasting was right when, and how far off. Once a fleet, since it forecasts every life from the
 * others; for conditions that were never seen only when such a part is asked about.
 */
export function learnFleet(earlier: readonly EarlierLife[]): Fleet {
  const lives = earlier.map(knownLife);
  const byOrder = orderTells(lives);
  const seen = combinationOf(pastForecasts(lives, { byOrder, newCondition: false }), false);
  let unseen: Combination | undefined;
  return {
    lives,
    byOrder,
    combinationFor: (condition) => {
      if (lives.some((life) => life.condition === condition)) return seen;
      unseen ??= combinationOf(pastForecasts(lives, { byOrder: false, newCondition: true }), true);
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
