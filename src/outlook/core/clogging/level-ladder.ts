import { type Climb, climbedAt, firstAt } from './climbed-level.js';
import type { EarlierLife } from './course.js';
import { countUntil } from './course.js';

export interface ClimbedLife extends EarlierLife {
  readonly climb: Climb;
}

const OTHER_CONDITION = 0.2;
const LOWER_RUNG = 0.7;
const RIDGE = 0.3;
const FARTHEST_SDS = 4;
/** What is left counts at least as this share of a life, so that its logarithm stays finite */
const LEAST_LEFT = 0.002;
const FEWEST = 3;

/**
 * What is left of a life at the level that is reached: earlier lives had so much left when they first were there, and this changes with how long they took to get there and from
 * 0.7 of the level to here.
 *
 * ln(left) is regressed on ln(clock at the level) and ln(clock at the level / clock at 0.7 of it), both brought to unit scatter, with ridge; the same condition weighs five times others.
 * `null` with fewer than three earlier lives.
 *
 * Source: own; ridge regression from memory.
 */
export function leftByLadder(
  lives: readonly ClimbedLife[],
  asked: { readonly condition: string },
  weightOf: (order: number) => number,
  climb: Climb,
  now: number,
): number | null {
  const level = climbedAt(climb, now);
  if (level === null || lives.length < FEWEST) return null;
  const count = countUntil(climb.clock, now);
  const own = rungs(climb, level, now, count);
  const rows = lives.map((life) => {
    const reached = firstAt(life.climb, level);
    return {
      weight: (life.condition === asked.condition ? 1 : OTHER_CONDITION) * weightOf(life.order),
      features: rungs(life.climb, level, reached),
      left: Math.log(Math.max(life.life - reached, LEAST_LEFT * life.life)),
    };
  });
  return Math.exp(ridgeAt(rows, own));
}

/** Below this a feature is the same for all lives, but for rounding. */
const LEAST_SCATTER = 1e-9;

interface LadderRow {
  readonly weight: number;
  readonly features: readonly [number, number];
  readonly left: number;
}

function rungs(climb: Climb, level: number, reached: number, count = climb.clock.length): [number, number] {
  const lower = firstAt(climb, LOWER_RUNG * level, count);
  const at = Math.log(reached);
  return [at, at - Math.log(Math.min(lower, reached))];
}

function ridgeAt(rows: readonly LadderRow[], asked: readonly [number, number]): number {
  const total = rows.reduce((sum, { weight }) => sum + weight, 0);
  const mean = (of: (row: LadderRow) => number) => rows.reduce((sum, row) => sum + row.weight * of(row), 0) / total;
  const middle = mean(({ left }) => left);
  const centre = [mean(({ features }) => features[0]), mean(({ features }) => features[1])] as const;
  const scale = [0, 1]
    .map((k) => Math.sqrt(mean(({ features }) => ((features[k] as number) - (centre[k] as number)) ** 2)))
    .map((sd) => (sd > LEAST_SCATTER ? sd : 1)) as [number, number];
  const scaled = (features: readonly [number, number]) =>
    [0, 1].map((k) => Math.max(-FARTHEST_SDS, Math.min(FARTHEST_SDS, ((features[k] as number) - (centre[k] as number)) / (scale[k] as number)))) as [
      number,
      number,
    ];
  let [s00, s01, s11, y0, y1] = [RIDGE * total, 0, RIDGE * total, 0, 0];
  for (const { weight, features, left } of rows) {
    const [x0, x1] = scaled(features);
    s00 += weight * x0 * x0;
    s01 += weight * x0 * x1;
    s11 += weight * x1 * x1;
    y0 += weight * x0 * (left - middle);
    y1 += weight * x1 * (left - middle);
  }
  const det = s00 * s11 - s01 * s01;
  const [x0, x1] = scaled(asked);
  return middle + (x0 * (s11 * y0 - s01 * y1) + x1 * (s00 * y1 - s01 * y0)) / det;
}
