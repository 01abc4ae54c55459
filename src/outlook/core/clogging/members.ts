import { median } from 'd3-array';
import { type Climb, climbedAt, climbOf, firstAt } from './climbed-level.js';
import type { Course, EarlierLife } from './course.js';
import { leftByLadder } from './level-ladder.js';
import { type LifePrior, lifePrior, type PartAsked } from './life-prior.js';
import { profiled, type Quantiles, stretchedLife, usualFor } from './stretched-life.js';
import type { UsualCourse } from './usual-course.js';

/** An earlier life with what is made of it once. */
export interface KnownLife extends EarlierLife {
  readonly profile: readonly number[];
  readonly climb: Climb;
}

export const knownLife = (life: EarlierLife): KnownLife => ({ ...profiled(life), climb: climbOf(life.course) });

/** How much nearer earlier lives count more: 1 for the same order, `floor` for far ones. */
const ORDER = { life: { reach: 2, floor: 0.05 }, course: { reach: 4, floor: 0.1 }, ladder: { reach: 4, floor: 0.2 } } as const;

const orderWeight = (asked: number, byOrder: boolean, { reach, floor }: { reach: number; floor: number }) =>
  byOrder ? (order: number) => floor + (1 - floor) * Math.exp(-Math.abs(order - asked) / reach) : () => 1;

/** What earlier lives say of a part, before its signal is looked at: made once a part, asked at any moment of it. */
export interface Expectation {
  readonly asked: PartAsked;
  readonly lives: readonly KnownLife[];
  readonly prior: LifePrior;
  readonly usual: UsualCourse;
  readonly byOrder: boolean;
}

/** `null` with too few lives to tell a course from. */
export function expectationOf(lives: readonly KnownLife[], asked: PartAsked, byOrder: boolean): Expectation | null {
  const prior = lifePrior(lives, asked, orderWeight(asked.order, byOrder, ORDER.life));
  const usual = usualFor(lives, asked, orderWeight(asked.order, byOrder, ORDER.course));
  return prior === null || usual === null ? null : { asked, lives, prior, usual, byOrder };
}

/** What each way of forecasting says is left, in clock units; `stretch` with its own range. */
export interface Said {
  readonly stretch: Quantiles;
  readonly ladder: number;
  readonly lookUp: number;
}

/** `null` before the first sample. */
export function saidAt({ asked, lives, prior, usual, byOrder }: Expectation, course: Course, climb: Climb, now: number): Said | null {
  const life = stretchedLife(usual, prior, lives.some(({ condition }) => condition === asked.condition) ? 'seen' : 'new', course, now);
  const level = climbedAt(climb, now);
  if (life === null || level === null) return null;
  const left = (at: number) => Math.max(at - now, LEAST_LEFT * at);
  const stretch = { p10: left(life.p10), p50: left(life.p50), p90: left(life.p90) };
  const ended = lives.filter((earlier) => earlier.ended === 'limit');
  const ofGroup = ended.filter(({ group }) => group === asked.group);
  const used = ofGroup.length >= FEWEST_OF_GROUP ? ofGroup : ended;
  const ladder = leftByLadder(used, asked, orderWeight(asked.order, byOrder, ORDER.ladder), climb, now) ?? stretch.p50;
  const lookUp = median(used, (earlier) => Math.max(earlier.life - firstAt(earlier.climb, level), LEAST_LEFT * earlier.life)) ?? stretch.p50;
  return { stretch, ladder, lookUp };
}

const LEAST_LEFT = 0.002;
const FEWEST_OF_GROUP = 4;

/** Order is heeded only where it makes the squared error of lives, each forecast from the others, smaller by this much: less may be chance. */
const ORDER_PAYS = 0.9;

/** Whether neighbours in order wore alike: lives are forecast better from the others when near ones count more. */
export function orderTells(lives: readonly EarlierLife[]): boolean {
  const ended = lives.filter((life) => life.ended === 'limit');
  const errors = (byOrder: boolean) =>
    ended.reduce((sum, life) => {
      const others = lives.filter((other) => other !== life);
      const prior = lifePrior(others, life, orderWeight(life.order, byOrder, ORDER.life));
      return sum + (prior === null ? 0 : (Math.log(life.life) - prior.lnCentre) ** 2);
    }, 0);
  return errors(true) < ORDER_PAYS * errors(false);
}
