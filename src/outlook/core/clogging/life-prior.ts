import { meanAbove } from '../normal.js';
import type { EarlierLife } from './course.js';

/** What is known of a life before its own signal: ln(life) follows Student's t. */
export interface LifePrior {
  readonly lnCentre: number;
  readonly lnScale: number;
  readonly freedom: number;
}

/** The part that is asked about. */
export interface PartAsked {
  readonly condition: string;
  readonly group: string;
  readonly lnStrength: number | null;
  readonly order: number;
}

/** Scatter of ln(life) between lives of one condition before it is seen, and how many lives that guess counts as. Common practice: filters on one feed vary by about 40 %. */
const USUAL_SCATTER = 0.4;
const SCATTER_COUNTS_AS = 0.25;
/** A condition's own scatter is drawn towards that of all, which counts as so many lives. */
const POOLED_COUNTS_AS = 4;
/** Conditions differ at least by so many times the scatter within one until they have shown otherwise; counts as two conditions. */
const BETWEEN_GUESS = 3;
const BETWEEN_COUNTS_AS = 2;
/** The clock holds the load: what it leaves of the strength of the feed is an exponent near nought. */
const EXPONENT_SD = 0.15;
/** Lives of another duty say this little (standard deviation of ln life) */
const OTHER_GROUP_SD = 0.3;
const LEAST_FREEDOM = 3;
const ROUNDS = 30;
const LEAST_VARIANCE = 1e-6;

interface Condition {
  readonly name: string;
  readonly group: string;
  readonly lnStrength: number | null;
  readonly mean: number;
  /** Number of equally weighted lives that the weights amount to */
  readonly count: number;
  readonly squares: number;
  readonly freedom: number;
}

/** Weight of an earlier life for the part that is asked about, by their distance in order. */
export type OrderWeight = (order: number) => number;

/**
 * The life to be expected of a part from earlier ones: those of the same condition (the same position) first, drawn towards the other conditions of its group (the same duty), these towards
 * all others. Condition means are held to differ by a variance that the conditions themselves show; a condition never seen gets the mean of its group, and the wider range.
 *
 * A life cut off before its limit counts with what is to be expected beyond (truncated normal, expectation maximisation). `null` where no life ever ended.
 *
 * Source: normal hierarchical model and expectation maximisation for censored lives, standard forms, from memory; the figures are common practice.
 */
export function lifePrior(lives: readonly EarlierLife[], asked: PartAsked, weightOf: OrderWeight): LifePrior | null {
  const ended = lives.filter((life) => life.ended === 'limit');
  if (ended.length === 0) return null;
  let expected = ended.map((life) => ({ life, ln: Math.log(life.life), spread: 0 }));
  let found = priorOf(expected, asked, weightOf);
  if (ended.length === lives.length) return found.prior;
  for (let round = 0; round < ROUNDS; round++) {
    const { within, centres } = found;
    expected = lives.map((life) => expectedOf(life, centres.get(life.condition) ?? found.prior.lnCentre, Math.sqrt(within)));
    found = priorOf(expected, asked, weightOf);
  }
  return { ...found.prior, freedom: Math.max(LEAST_FREEDOM, Math.min(found.prior.freedom, ended.length)) };
}

interface Expected {
  readonly life: EarlierLife;
  readonly ln: number;
  readonly spread: number;
}

function expectedOf(life: EarlierLife, centre: number, scatter: number): Expected {
  const seen = Math.log(life.life);
  if (life.ended === 'limit') return { life, ln: seen, spread: 0 };
  const z = (seen - centre) / scatter;
  const above = meanAbove(z);
  return { life, ln: centre + scatter * above, spread: scatter ** 2 * Math.max(0, 1 + z * above - above ** 2) };
}

function priorOf(expected: readonly Expected[], asked: PartAsked, weightOf: OrderWeight): { prior: LifePrior; within: number; centres: Map<string, number> } {
  const conditions = conditionsOf(expected, weightOf);
  const freedom = conditions.reduce((sum, condition) => sum + condition.freedom, 0);
  const squares = conditions.reduce((sum, condition) => sum + condition.squares, 0);
  // Shrunk in logarithms: a guess of 40 % must not outweigh the evidence of lives that agree within one.
  const pooled = Math.exp(
    (SCATTER_COUNTS_AS * Math.log(USUAL_SCATTER ** 2) + freedom * Math.log(Math.max(LEAST_VARIANCE, squares / Math.max(freedom, 1e-9)))) /
      (SCATTER_COUNTS_AS + freedom),
  );
  const own = conditions.find(({ name }) => name === asked.condition);
  const within = own === undefined ? pooled : (POOLED_COUNTS_AS * pooled + own.squares) / (POOLED_COUNTS_AS + own.freedom);
  const between = betweenOf(conditions, pooled);
  const others = conditions.filter((condition) => condition !== own);
  const near = others.filter(({ group }) => group === asked.group);
  const line = lineOf(near.length > 0 ? near : others, asked, between, pooled);
  const prior = line === null ? null : { mean: line.mean, variance: between + line.variance + (near.length > 0 ? 0 : OTHER_GROUP_SD ** 2) };
  const scale = Math.max(LEAST_FREEDOM, freedom);
  const centres = new Map(conditions.map(({ name, mean }) => [name, mean]));
  const law = (mean: number, variance: number) => ({ prior: { lnCentre: mean, lnScale: Math.sqrt(variance), freedom: scale }, within, centres });
  if (own === undefined) return law(prior?.mean ?? 0, within + (prior?.variance ?? 0));
  const ownVariance = within / own.count;
  if (prior === null) return law(own.mean, within + ownVariance);
  const share = prior.variance / (prior.variance + ownVariance);
  return law(prior.mean + share * (own.mean - prior.mean), within + share * ownVariance);
}

function conditionsOf(expected: readonly Expected[], weightOf: OrderWeight): Condition[] {
  const names = [...new Set(expected.map(({ life }) => life.condition))];
  return names.flatMap((name) => {
    const lives = expected.filter(({ life }) => life.condition === name);
    const weights = lives.map(({ life }) => weightOf(life.order));
    const total = weights.reduce((sum, weight) => sum + weight, 0);
    const mean = lives.reduce((sum, { ln }, i) => sum + (weights[i] as number) * ln, 0) / total;
    const count = total ** 2 / weights.reduce((sum, weight) => sum + weight ** 2, 0);
    const variance = lives.reduce((sum, { ln, spread }, i) => sum + (weights[i] as number) * ((ln - mean) ** 2 + spread), 0) / total;
    const freedom = Math.max(0, count - 1);
    const first = lives[0]?.life;
    return first === undefined ? [] : [{ name, group: first.group, lnStrength: first.lnStrength, mean, count, squares: variance * count, freedom }];
  });
}

/** Variance between conditions of a group, beyond what their few lives make. */
function betweenOf(conditions: readonly Condition[], within: number): number {
  let [sum, freedom] = [BETWEEN_COUNTS_AS * BETWEEN_GUESS ** 2 * within, BETWEEN_COUNTS_AS];
  for (const group of new Set(conditions.map((condition) => condition.group))) {
    const members = conditions.filter((condition) => condition.group === group);
    if (members.length < 2) continue;
    const mean = members.reduce((total, member) => total + member.mean, 0) / members.length;
    const squares = members.reduce((total, member) => total + (member.mean - mean) ** 2 - within / member.count, 0);
    sum += Math.max(0, squares);
    freedom += members.length - 1;
  }
  return sum / freedom;
}

/** Weighted line of condition means over the strength of the feed, read at the strength that is asked for. */
function lineOf(conditions: readonly Condition[], asked: PartAsked, between: number, within: number): { mean: number; variance: number } | null {
  if (conditions.length === 0) return null;
  // Normal equations of mean and exponent, the exponent held near nought.
  let [s0, s1, s2, y0, y1] = [0, 0, EXPONENT_SD ** -2, 0, 0];
  for (const { mean, count, lnStrength } of conditions) {
    const weight = 1 / (between + within / count);
    const x = lnStrength === null || asked.lnStrength === null ? 0 : lnStrength - asked.lnStrength;
    s0 += weight;
    s1 += weight * x;
    s2 += weight * x * x;
    y0 += weight * mean;
    y1 += weight * x * mean;
  }
  const det = s0 * s2 - s1 * s1;
  return { mean: (s2 * y0 - s1 * y1) / det, variance: s2 / det };
}
