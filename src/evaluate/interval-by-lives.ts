import { group, quantile } from 'd3-array';
import { SeededRandom } from '../visits/core/planner/seeded-random.js';
import type { Scored } from './forecast-scores.js';

const SAMPLES = 200;

/** In which a figure would lie in 19 of 20 fleets like this one: whole lives are drawn again with replacement, since forecasts of one life err alike. */
export function intervalByLives(scored: readonly Scored[], figure: (scored: readonly Scored[]) => number | null): readonly [number, number] | undefined {
  const lives = [...group(scored, ({ life }) => life).values()];
  if (lives.length < 3) return undefined;
  const random = new SeededRandom(lives.length);
  const drawn = Array.from({ length: SAMPLES }, () => figure(lives.flatMap(() => lives[random.below(lives.length)] ?? []))).filter((one) => one !== null);
  const [low, high] = [quantile(drawn, 0.025), quantile(drawn, 0.975)];
  return low === undefined || high === undefined ? undefined : [Number(low.toPrecision(3)), Number(high.toPrecision(3))];
}
