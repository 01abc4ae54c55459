import { mean } from 'd3-array';
import type { Print } from '../evaluation.js';
import { coverage, printer, type Scored } from '../forecast-scores.js';
import type { Left } from './ours.js';
import type { RigRun } from './rig-run.js';

const SHARES = [0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9] as const;

/** How far off forecasts are that know no earlier life: mean |ln(forecast / truth)| over a life, beside "as long again as it has run". */
export function withheldFigures(print: Print, set: string, runs: readonly RigRun[], ours: (run: RigRun) => (nowS: number) => Left): void {
  const figure = printer(print, { set, case: 'withheld', at: '0.2 to 0.9' });
  const said: Scored[] = [];
  const elapsed: Scored[] = [];
  for (const run of runs) {
    const ask = ours(run);
    for (const share of SHARES) {
      const nowS = share * run.lifeS;
      const truth = run.lifeS - nowS;
      said.push({ life: run.name, truth, ...ask(nowS) });
      elapsed.push({ life: run.name, truth, forecast: nowS });
    }
  }
  for (const [method, list] of [
    ['ours', said],
    ['remaining = elapsed', elapsed],
  ] as const)
    figure('log_error_withheld', 'ln', mean(list, ({ truth, forecast }) => Math.abs(Math.log(forecast / truth))) ?? null, { method, n: list.length });
  const covered = coverage(said);
  if (covered === null) return;
  figure('coverage80', '%', covered.value, { n: covered.n, independent: covered.lives });
  figure('width80', '%', covered.width, { n: covered.n });
}
