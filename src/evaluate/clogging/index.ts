import { BadInput, type Options, type Print, type Values } from '../evaluation.js';
import { caseFigures } from './case-figures.js';
import { askFor, type Learned, learn, withoutLives } from './ours.js';
import { type RigRun, readRig } from './rig-run.js';
import { simpleAt, simpleEverywhere } from './simple.js';
import { withheldFigures } from './withheld.js';

export const help = `
npm run evaluate -- clogging --runs runs.csv --series series_1hz.csv --threshold N [--load flow_ml_min,solid_pct] [--train runs.csv,series_1hz.csv]

Forecasts how long a clogging filter still has until its pressure drop meets the threshold, at 30, 50, 70 and 90 % of its life, from what was measured until then.
runs.csv has one row a run: run, the condition it was made in (particle_um or dust, solid_pct or feed_speed) and, where known, its life (t_fail_s or t_dp<N>_median11_s).
series_1hz.csv has run, sec, the pressure drop (dp_psi or dp_pa) and perhaps flow_ml_min. --load names the columns that multiply into the load rate.

Without --train every run is forecast from all others (same-condition), from those at other loads alone (load-unseen), and with all earlier lives withheld.
With --train the model learns from those files and is scored on the others (train-test), and once more with all lives withheld.
coverage80 stands with the range in which a true 80 % would lie by chance for so many independent lives.
`;

export const options: Options = {
  runs: { type: 'string', file: true },
  series: { type: 'string', file: true },
  threshold: { type: 'string' },
  load: { type: 'string' },
  train: { type: 'string', file: true },
};

export async function evaluate(values: Values, print: Print): Promise<void> {
  const { runs, series, train } = values;
  if (typeof runs !== 'string' || typeof series !== 'string') throw new BadInput('--runs and --series are needed');
  const limit = Number(values.threshold);
  if (!(limit > 0)) throw new BadInput(`--threshold must be a number above 0, not "${String(values.threshold)}"`);
  const load = typeof values.load === 'string' ? values.load.split(',') : null;
  const rig = readRig({ runs, series }, limit, load);
  if (rig.length < 2) throw new BadInput(`${runs} and ${series} hold ${rig.length} runs that meet ${limit}: at least two are needed`);
  const set = `${rig.length} runs to ${limit}`;
  if (typeof train === 'string') {
    const [trainRuns, trainSeries] = train.split(',');
    if (trainRuns === undefined || trainSeries === undefined) throw new BadInput('--train needs two files: runs.csv,series_1hz.csv');
    const earlier = readRig({ runs: trainRuns, series: trainSeries }, limit, load);
    if (earlier.length < 2) throw new BadInput(`${trainRuns} holds ${earlier.length} runs that meet ${limit}: at least two are needed`);
    const learned = learn(earlier);
    caseFigures(print, { set, case: 'train-test' }, rig, (run) => [
      { simple: simpleAt(run, earlier), everywhere: simpleEverywhere(run, earlier), ours: askFor(learned, run) },
    ]);
  } else {
    const ofOthers = rig.filter((run) => alike(rig, run).length > 0);
    caseFigures(print, { set, case: 'same-condition' }, ofOthers, (run) => {
      const others = rig.filter((other) => other !== run);
      return [{ simple: simpleAt(run, others), everywhere: simpleEverywhere(run, others), ours: askFor(learn(others), run) }];
    });
    const learnedWithout = new Map<string, Learned>();
    caseFigures(print, { set, case: 'load-unseen' }, rig, (run) => {
      const others = rig.filter(({ condition }) => condition !== run.condition);
      if (others.length < 2) return [];
      const learned = learnedWithout.get(run.condition) ?? learn(others);
      learnedWithout.set(run.condition, learned);
      return [{ simple: simpleAt(run, others), everywhere: simpleEverywhere(run, others), ours: askFor(learned, run) }];
    });
  }
  withheldFigures(print, set, rig, withoutLives);
}

const alike = (rig: readonly RigRun[], run: RigRun) => rig.filter((other) => other !== run && other.condition === run.condition);
