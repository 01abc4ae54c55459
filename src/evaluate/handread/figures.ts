import { group } from 'd3-array';
import type { Print } from '../evaluation.js';
import { coverage, lateShare, mdape, printer } from '../forecast-scores.js';
import { intervalByLives } from '../interval-by-lives.js';
import type { Swept } from './sweep.js';

/** Prints how right forecasts were: errors and late shares of each method, coverage and width of ours, and how many questions ours answered. */
export function sweptFigures(print: Print, shared: { readonly set: string; readonly case: string }, { scores, asked }: Swept): void {
  for (const [signal, { asked: n, answered }] of Object.entries(asked)) {
    printer(print, shared)('answered', '%', n === 0 ? null : (100 * answered) / n, { signal, n });
  }
  for (const [signal, ofSignal] of group(scores, (one) => one.signal)) {
    const figure = printer(print, { ...shared, signal });
    for (const [measure, ofMeasure] of group(ofSignal, (one) => one.measure)) {
      const name = measure === 'ahead' ? 'mdape_ahead' : 'mdape_to_limit';
      const where = (at: number | string, method: string, n: number) => ({ at, method, n });
      for (const [at, ofShare] of [...group(ofMeasure, (one) => one.at)].sort(([one], [other]) => one - other)) {
        for (const [method, list] of group(ofShare, (one) => one.method)) {
          const lives = new Set(list.map(({ life }) => life)).size;
          const interval = intervalByLives(list, mdape);
          figure(name, '%', mdape(list), { ...where(at, method, list.length), lives, ...(interval === undefined ? {} : { interval }) });
          if (measure === 'to limit') figure('late_share', '%', lateShare(list), where(at, method, list.length));
        }
      }
      for (const at of ['pooled', ...new Set(ofMeasure.map((one) => one.at))]) {
        const list = ofMeasure.filter((one) => one.method === 'ours' && (at === 'pooled' || one.at === at));
        const covered = coverage(list);
        if (covered === null) continue;
        const interval = intervalByLives(list, (drawn) => coverage(drawn)?.value ?? null);
        const of = { ...where(at, 'ours', list.length), of: measure, independent: covered.lives };
        figure('coverage80', '%', covered.value, { ...of, ...(interval === undefined ? {} : { interval }) });
        figure('width80', '%', covered.width, of);
      }
    }
  }
}
