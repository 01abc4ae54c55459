import { quantile } from 'd3-array';
import { SeededRandom } from '../../visits/core/planner/seeded-random.js';
import type { Print } from '../evaluation.js';
import { atFill, frontierOf } from './frontier.js';
import { OURS } from './methods.js';
import { type Outcome, PINBALLS } from './run-method.js';

interface Named {
  readonly method: string;
  readonly outcome: Outcome;
}

const FILLS = [0.9, 0.95, 0.98];
const NOMINALS_SHOWN = [0.9, 0.95, 0.98];
const DRAWS = 300;

/** The figures of one set of series, of every method. */
export function printSet(set: string, items: readonly number[], outcomes: readonly Named[], groups: readonly string[], print: Print): void {
  const n = items.length;
  const draws = drawsOf(items);
  const simple = outcomes.filter(({ method }) => method !== OURS);
  const ours = outcomes.find(({ method }) => method === OURS);
  for (const fill of FILLS) {
    const stock = ({ outcome }: Named, of: readonly number[]) => atFill(frontierOf(outcome.kept, of), fill);
    for (const one of outcomes) {
      const reached = stock(one, items);
      print({
        measure: 'stock_for_fill',
        value: round(reached?.stock ?? null),
        unit: 'pieces per series',
        method: one.method,
        set,
        at: fill,
        n,
        nominal: round(reached?.nominal ?? null),
        ...interval(draws.map((of) => stock(one, of)?.stock ?? null)),
      });
    }
    if (ours !== undefined) printSaving(print, 'saving', { set, at: fill, n }, items, draws, (one, of) => stock(one, of)?.stock ?? null, ours, simple);
  }
  printScores('crps', 'pieces', ({ outcome }) => outcome.crps, { set, at: 'rolling origins' });
  printScores('crps', 'pieces', ({ outcome }) => outcome.crpsAtOneOrigin, { set, at: 'one origin' });
  for (const [at, tau] of PINBALLS.entries()) printScores('pinball', 'pieces', ({ outcome }) => outcome.pinballs[at] ?? new Float64Array(), { set, at: tau });
  for (const { method, outcome } of outcomes) {
    for (const group of ['all series', ...new Set(items.map((item) => groups[item] ?? '').sort())]) {
      const of = group === 'all series' ? items : items.filter((item) => groups[item] === group);
      for (const reached of frontierOf(outcome.kept, of)) {
        if (!NOMINALS_SHOWN.includes(reached.nominal)) continue;
        print({
          measure: 'fill_at_nominal',
          value: round(reached.fill),
          unit: 'share',
          method,
          set,
          at: reached.nominal,
          case: group,
          n: of.length,
          stock: round(reached.stock),
        });
      }
    }
  }

  function printScores(
    measure: string,
    unit: string,
    scores: (one: Named) => Float64Array,
    where: { readonly set: string; readonly at: string | number },
  ): void {
    const mean = (one: Named, of: readonly number[]) => of.reduce((sum, item) => sum + (scores(one)[item] ?? 0), 0) / of.length;
    for (const one of outcomes) {
      print({ measure, value: round(mean(one, items)), unit, method: one.method, ...where, n, ...interval(draws.map((of) => mean(one, of))) });
    }
    if (ours !== undefined) printSaving(print, `${measure}_saving`, { ...where, n }, items, draws, mean, ours, simple);
  }
}

/** Share less than the best simple method, which may be another one in each draw. */
function printSaving(
  print: Print,
  measure: string,
  where: { readonly set: string; readonly at: string | number; readonly n: number },
  items: readonly number[],
  draws: readonly (readonly number[])[],
  figureOf: (one: Named, of: readonly number[]) => number | null,
  ours: Named,
  simple: readonly Named[],
): void {
  const compared = (of: readonly number[]) => {
    const values = simple.flatMap((one) => {
      const value = figureOf(one, of);
      return value === null ? [] : [{ method: one.method, value }];
    });
    const best = values.sort((a, b) => a.value - b.value)[0];
    const own = figureOf(ours, of);
    return { best: best?.method ?? null, saving: own === null || best === undefined ? null : 1 - own / best.value };
  };
  const { best, saving } = compared(items);
  print({ measure, value: round(saving), unit: 'share', method: OURS, ...where, against: best, ...interval(draws.map((of) => compared(of).saving)) });
}

function drawsOf(items: readonly number[]): number[][] {
  const random = new SeededRandom(1);
  return Array.from({ length: DRAWS }, () => items.map(() => items[random.below(items.length)] ?? 0));
}

/** The middle nine tenths; none where a draw in twenty or more has no value. */
function interval(values: readonly (number | null)[]): { readonly interval?: readonly [number, number] } {
  const known = values.flatMap((value) => value ?? []);
  const [low, high] = [round(quantile(known, 0.05) ?? null), round(quantile(known, 0.95) ?? null)];
  return known.length < 0.95 * values.length || low === null || high === null ? {} : { interval: [low, high] };
}

const round = <T extends number | null>(value: T) => (value === null ? value : Math.round(value * 1e4) / 1e4);
