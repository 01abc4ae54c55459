import { median } from 'd3-array';
import { lnLikelihoodOf, type SeenLife, weibullFit } from './weibull-fit.js';

/** What the lives of a kind of part teach: Weibull laws, each with how much it is believed. */
export interface LifeOfKind {
  readonly kind: 'learned';
  readonly laws: readonly { readonly scale: number; readonly shape: number; readonly weight: number }[];
  readonly lives: number;
  readonly failures: number;
}

export interface TooFewLives {
  readonly kind: 'too-few';
  readonly lives: number;
  readonly failures: number;
  readonly need: number;
}

/** With fewer failures the interval of a rule says more. */
const LEAST_FAILURES = 3;
/** Shape before the record speaks: wear, between chance (1) and a sharp end (4). Own guess: ln shape is normal. */
const USUAL_SHAPE = { ln: Math.log(2), sd: 0.5 };
const SHAPES = 24;
const SCALES = 40;
const LN_SHAPES = [Math.log(0.5), Math.log(8)] as const;
/** Around the most likely scale, in logarithms */
const SCALE_REACH = 2.5;
const LEAST_WEIGHT = 1e-5;

/**
 * Learns from lives of one kind, those in use and those taken out early among them (suspended: they would have lived longer). A grid of Weibull laws about the most likely one (`weibullFit`), each believed by its likelihood and by the usual shape, so that few
 * lives give a wide answer rather than a sharp wrong one. `too-few` below three failures.
 *
 * Source: Bayes' rule on a grid; the usual shape is our own guess.
 *
 * @example lifeOfKind([{ life: 900, failed: true }, { life: 400, failed: false }]) // => { "kind": "too-few", "lives": 2, "failures": 1, "need": 3 }
 */
export function lifeOfKind(all: readonly SeenLife[]): LifeOfKind | TooFewLives {
  const lives = all.filter(({ life }) => life > 0 && Number.isFinite(life));
  const failures = lives.filter(({ failed }) => failed).length;
  if (failures < LEAST_FAILURES) return { kind: 'too-few', lives: lives.length, failures, need: LEAST_FAILURES };
  // The grid lies about the most likely law; where all failed at one age there is none, and the middle life serves.
  const fit = weibullFit(lives);
  const centre = fit.kind === 'fit' ? Math.log(fit.scale) : Math.log(median(lives, ({ life }) => life) ?? 1) + Math.log(lives.length / failures) / 2;
  const laws: { scale: number; shape: number; ln: number }[] = [];
  for (let i = 0; i < SHAPES; i++) {
    const lnShape = LN_SHAPES[0] + ((LN_SHAPES[1] - LN_SHAPES[0]) * i) / (SHAPES - 1);
    for (let j = 0; j < SCALES; j++) {
      const [scale, shape] = [Math.exp(centre + SCALE_REACH * ((2 * j) / (SCALES - 1) - 1)), Math.exp(lnShape)];
      laws.push({ scale, shape, ln: lnLikelihoodOf(lives, scale, shape) - ((lnShape - USUAL_SHAPE.ln) / USUAL_SHAPE.sd) ** 2 / 2 });
    }
  }
  const highest = laws.reduce((most, { ln }) => Math.max(most, ln), Number.NEGATIVE_INFINITY);
  const believed = laws.flatMap(({ scale, shape, ln }) => {
    const weight = Math.exp(ln - highest);
    return weight < LEAST_WEIGHT ? [] : [{ scale, shape, weight }];
  });
  const total = believed.reduce((sum, { weight }) => sum + weight, 0);
  return { kind: 'learned', laws: believed.map((law) => ({ ...law, weight: law.weight / total })), lives: lives.length, failures };
}

/**
 * The probability that a part of the kind, which has served `age` and still does, fails within a further stretch of its clock. That it lives is in the lives that were learned from, as one in use.
 *
 * 1 - mean over the laws of R(age + further) / R(age).
 *
 * @example failsWithin({ kind: 'learned', lives: 9, failures: 9, laws: [{ scale: 100, shape: 1, weight: 1 }] }, 50)(100) // => 0.6321206
 */
export function failsWithin({ laws }: LifeOfKind, age: number): (further: number) => number {
  const from = Math.max(0, age);
  // (t / scale) ^ shape by logarithms: that of t is the same for all laws
  const hazards = laws.map(({ scale, shape, weight }) => ({ lnScale: Math.log(scale), shape, weight, until: (from / scale) ** shape }));
  return (further) => {
    if (!(further > 0)) return 0;
    const ln = Math.log(from + further);
    const outlives = hazards.reduce((sum, { lnScale, shape, weight, until }) => sum + weight * Math.exp(until - Math.exp(shape * (ln - lnScale))), 0);
    return Math.min(1, Math.max(0, 1 - outlives));
  };
}
