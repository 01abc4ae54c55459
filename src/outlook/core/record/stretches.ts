import { group } from 'd3-array';
import { type CameTrue, REACHES, reachOf, type StretchFor, stretchOf } from './calibration.js';

const LEAST_LIVES = 3;

/**
 * By how much the ranges of each model are stretched for each reach, learned from forecasts that came true. A reach with too few lives goes by all reaches of its model; a model that is not among them keeps its ranges.
 *
 * @example stretchesOf([])('a model 1', 30) // => 1
 */
export function stretchesOf(past: readonly (CameTrue & { readonly model: string })[]): StretchFor {
  const stretches = new Map(
    [...group(past, ({ model }) => model)].map(([model, own]) => {
      const pooled = stretchOf(own);
      const byReach = REACHES.map((_, reach) => {
        const near: CameTrue[] = own.filter(({ p50Days }) => p50Days !== null && reachOf(p50Days) === reach);
        return new Set(near.map(({ life }) => life)).size < LEAST_LIVES ? pooled : stretchOf(near);
      });
      return [model, byReach] as const;
    }),
  );
  return (model, p50Days) => stretches.get(model)?.[reachOf(p50Days)] ?? 1;
}
