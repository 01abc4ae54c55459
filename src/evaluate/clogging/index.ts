import { BadInput, type Options, type Print, type Values } from '../evaluation.js';
import { lateShare, mdape, printer, rmse, type Scored } from '../forecast-scores.js';
import { type RigRun, readRig } from './rig-run.js';
import { simpleAt, simpleEverywhere } from './simple.js';

export const help = `
npm run evaluate -- clogging --runs runs.csv --series series_1hz.csv --threshold N [--load flow_ml_min,solid_pct] [--train runs.csv,series_1hz.csv]

Forecasts how long a clogging filter still has until its pressure drop meets the threshold, at 30, 50, 70 and 90 % of its life, from what was measured until then.
runs.csv has one row a run: run, the condition it was made in (particle_um or dust, solid_pct or feed_speed) and, where known, its life (t_fail_s or t_dp<N>_median11_s).
series_1hz.csv has run, sec, the pressure drop (dp_psi or dp_pa) and perhaps flow_ml_min. --load names the columns that multiply into the load rate.

Without --train every run is forecast from all others (same-condition), from those at other loads alone (load-unseen), and with all earlier lives withheld.
With --train the model learns from those files and is scored on the others (train-test).
`;

export const options: Options = {
  runs: { type: 'string', file: true },
  series: { type: 'string', file: true },
  threshold: { type: 'string' },
  load: { type: 'string' },
  train: { type: 'string', file: true },
};

const SHARES = [0.3, 0.5, 0.7, 0.9] as const;

export async function evaluate(values: Values, print: Print): Promise<void> {
  const { runs, series } = values;
  if (typeof runs !== 'string' || typeof series !== 'string') throw new BadInput('--runs and --series are needed');
  const limit = Number(values.threshold);
  if (!(limit > 0)) throw new BadInput(`--threshold must be a number above 0, not "${String(values.threshold)}"`);
  const load = typeof values.load === 'string' ? values.load.split(',') : null;
  const rig = readRig({ runs, series }, limit, load);
  const figure = printer(print, { set: `${rig.length} runs to ${limit}` });
  const alikeOf = (run: RigRun) => rig.filter((other) => other !== run && other.condition === run.condition);
  const scored = rig.filter((run) => alikeOf(run).length > 0);
  for (const share of SHARES) {
    const table = new Map<string, Scored[]>();
    for (const run of scored) {
      const now = share * run.lifeS;
      for (const [method, forecast] of Object.entries(simpleAt(run, rig, alikeOf(run), now)))
        table.set(method, [...(table.get(method) ?? []), { life: run.name, truth: run.lifeS - now, forecast }]);
    }
    for (const [method, list] of table) {
      const where = { method, case: 'same-condition', at: share, n: list.length };
      figure('mdape_remaining', '%', mdape(list), where);
      figure('late_share', '%', lateShare(list), where);
    }
  }
  const everywhere = new Map<string, Scored[]>();
  for (const run of scored)
    for (const [method, list] of Object.entries(simpleEverywhere(run, alikeOf(run)))) everywhere.set(method, [...(everywhere.get(method) ?? []), ...list]);
  for (const [method, list] of everywhere) figure('rmse_s', 's', rmse(list), { method, case: 'same-condition', n: list.length });
}
