import { median } from 'd3-array';

export interface LoadPoint {
  readonly load: number;
  readonly value: number;
}

/** How far a clogging part has come, and how steeply it climbs: level = (load / life) ^ exponent, where the level is 0 clean and 1 at the limit. */
export interface CloggingGrowth {
  /** Value when clean, value now, and the load at which now was read */
  readonly clean: number;
  readonly now: number;
  readonly levelLoad: number;
  readonly level: number;
  readonly lnExponent: number;
  readonly lnExponentSd: number;
}

/** Exponent before the record says anything: between straight (1) and the steep end of a blocked filter. Common practice says cubic; own guess. */
const USUAL_EXPONENT = { ln: Math.log(3.5), sd: 0.6 };
/** Share of the load over which the level and its growth are read */
const WINDOW = 0.2;
const EXPONENT_RANGE = [0.7, 25] as const;
/** Keeps the logarithms finite */
const LEVEL_RANGE = [0.005, 0.995] as const;
const FEWEST_POINTS = 5;
/** A point on the edge of a window lies in it whatever the rounding of its unit */
const EDGE = 1e-9;
/** Scatter of ln(exponent) added upwards: clogging speeds up (late in life the growth of the past is always too low), it does not slow down. */
const ACCELERATION_SD = 1;
/** A rise of less than this share of the way to the limit says nothing yet */
const LEAST_LEVEL = 0.03;

/**
 * Growth of the pressure drop of a clogging part, from its record since it was fitted. Clogging is convex: a straight line is late by several times.
 *
 * The clean value is the lowest of the medians of the first tenth, the second tenth and the first quarter of the load. The level is read over the last
 * part of the load and one window before; their ratio gives a local exponent d ln(level) / d ln(load). It is blended with the usual one by precision: its
 * standard deviation is 0.3 / level, so that it counts for little near clean and decides near the limit.
 *
 * `null` with fewer than five points, or while less than 3 % of the way from clean to the limit has gone.
 *
 * Source: own; evaluated on open clogging records in test/open-data. The constants above were settled on the same records, so those figures flatter them.
 *
 * @example growthOf([], 150) // => null
 */
export function growthOf(points: readonly LoadPoint[], limit: number): CloggingGrowth | null {
  const last = points.at(-1);
  if (points.length < FEWEST_POINTS || last === undefined || last.load <= 0) return null;
  const load = last.load;
  const within = (from: number, to: number) => points.filter((point) => point.load >= (from - EDGE) * load && point.load <= (to + EDGE) * load);
  const middle = (from: number, to: number) => median(within(from, to), ({ value }) => value);
  const clean = Math.min(...[middle(0, 0.1), middle(0.1, 0.2), middle(0, 0.25)].filter((value) => value !== undefined));
  const half = 0.4 * WINDOW;
  const nowPoints = within(1 - half, 1);
  const now = median(nowPoints, ({ value }) => value);
  const before = middle(1 - WINDOW - half, 1 - WINDOW);
  if (now === undefined || before === undefined || !(clean < limit)) return null;
  if (now - clean < LEAST_LEVEL * (limit - clean)) return null;
  const level = clamp((now - clean) / (limit - clean), LEVEL_RANGE);
  const earlier = clamp((before - clean) / (limit - clean), LEVEL_RANGE);
  const local = clamp(Math.log(level / earlier) / -Math.log(1 - WINDOW), EXPONENT_RANGE);
  const usual = 1 / USUAL_EXPONENT.sd ** 2;
  const own = (level / 0.3) ** 2;
  return {
    clean,
    now,
    levelLoad: median(nowPoints, (point) => point.load) ?? load,
    level,
    lnExponent: (usual * USUAL_EXPONENT.ln + own * Math.log(local)) / (usual + own),
    lnExponentSd: Math.sqrt(1 / (usual + own) + 0.15 ** 2),
  };
}

function clamp(value: number, [low, high]: readonly [number, number]): number {
  return Math.min(high, Math.max(low, value));
}

/**
 * Logarithm of the likelihood of a life, given the growth: how well the exponent that this life would mean fits the blended one. A life shorter than the
 * growth says is held against it less than a longer one: a filter that looks flat may still block.
 *
 * @example lnLikelihood({ clean: 30, now: 60, levelLoad: 500, level: 0.25, lnExponent: Math.log(2), lnExponentSd: 0.3 }, 1000) // => 0
 */
export function lnLikelihood(growth: CloggingGrowth, life: number): number {
  const exponent = Math.log(growth.level) / Math.log(Math.min(growth.levelLoad / life, 1 - 1e-9));
  const steeper = Math.log(exponent) - growth.lnExponent;
  const sd = steeper > 0 ? Math.hypot(growth.lnExponentSd, ACCELERATION_SD) : growth.lnExponentSd;
  return -((steeper / sd) ** 2) / 2;
}
