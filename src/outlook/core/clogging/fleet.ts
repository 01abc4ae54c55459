import { climbOf } from './climbed-level.js';
import { type Combination, combinationOf, combined, meanSquare } from './combined.js';
import type { Course, EarlierLife } from './course.js';
import type { PartAsked } from './life-prior.js';
import { type Expectation, expectationOf, type KnownLife, knownLife, saidAt } from './members.js';
import { type PastForecast, pastForecasts } from './past-forecasts.js';
import type { Quantiles } from './stretched-life.js';

/** All that is learned from earlier lives. */
export interface Fleet {
  readonly lives: readonly KnownLife[];
  readonly seen: Combination;
  readonly unseen: Combination;
  /** Whether neighbours in order wore alike, so that they count more */
  readonly byOrder: boolean;
}

/** Order is heeded only where past forecasts were better by so much with it. */
const ORDER_PAYS = 0.9;

/**
 * Learns from earlier lives: how a level goes, how long lives are, which way of forecasting was right when, and how far off. Once a fleet, since it forecasts every life from the
 * others.
 */
export function learnFleet(earlier: readonly EarlierLife[]): Fleet {
  const lives = earlier.map(knownLife);
  const plain = pastForecasts(lives, { byOrder: false, newCondition: false });
  const ordered = pastForecasts(lives, { byOrder: true, newCondition: false });
  const byOrder = errorOf(ordered) < ORDER_PAYS * errorOf(plain);
  return {
    lives,
    seen: combinationOf(byOrder ? ordered : plain, false),
    unseen: combinationOf(pastForecasts(lives, { byOrder: false, newCondition: true }), true),
    byOrder,
  };
}

function errorOf(past: readonly PastForecast[]): number {
  return past.length === 0 ? 0 : meanSquare(past.map(({ said, left }) => Math.log(left / said.stretch.p50)));
}

/** Asks the fleet for one part at any moment of its course: what is left, in clock units; `null` where it cannot tell. */
export function askFleet(fleet: Fleet, asked: PartAsked, course: Course): (now: number) => Quantiles | null {
  const seen = fleet.lives.some(({ condition }) => condition === asked.condition);
  const expectation: Expectation | null = expectationOf(fleet.lives, asked, fleet.byOrder && seen);
  const climb = climbOf(course);
  return (now) => {
    const said = expectation === null ? null : saidAt(expectation, course, climb, now);
    return said === null ? null : combined(seen ? fleet.seen : fleet.unseen, said, now);
  };
}
