import type { Print } from '../evaluation.js';
import { coverage, lateShare, mdape, printer, rmse, type Scored } from '../forecast-scores.js';
import type { Left } from './ours.js';
import type { RigRun } from './rig-run.js';

/** How a run is forecast: by simple methods and by ours, at any second of it. */
interface Forecasters {
  readonly simple: (nowS: number) => Readonly<Record<string, number>>;
  /** Those that are quick enough for every second */
  readonly everywhere: (nowS: number) => Readonly<Record<string, number>>;
  readonly ours: (nowS: number) => Left | null;
}

const SHARES = [0.3, 0.5, 0.7, 0.9] as const;
const WARMED_UP_S = 10;

/** Forecasts every run as if it were not over, and prints how right each method was; `forecastersFor` gives nothing for a run that cannot be forecast in this case. */
export function caseFigures(
  print: Print,
  shared: { readonly set: string; readonly case: string },
  runs: readonly RigRun[],
  forecastersFor: (run: RigRun) => readonly Forecasters[],
): void {
  const figure = printer(print, shared);
  const at = new Map<number, Map<string, Scored[]>>(SHARES.map((share) => [share, new Map()]));
  const everywhere = new Map<string, Scored[]>();
  const keep = (table: Map<string, Scored[]> | undefined, method: string, scored: Scored) => table?.set(method, [...(table.get(method) ?? []), scored]);
  for (const run of runs) {
    for (const { simple, everywhere: quick, ours } of forecastersFor(run)) {
      const scored = (nowS: number, forecast: number) => ({ life: run.name, truth: run.lifeS - nowS, forecast });
      for (const share of SHARES) {
        const nowS = share * run.lifeS;
        for (const [method, left] of Object.entries(simple(nowS))) keep(at.get(share), method, scored(nowS, left));
        const left = ours(nowS);
        if (left !== null) keep(at.get(share), 'ours', { ...scored(nowS, left.forecast), low: left.low, high: left.high });
      }
      const all = new Map<string, Scored[]>();
      for (const nowS of run.timeS.filter((time) => time >= WARMED_UP_S && time < run.lifeS)) {
        const left = ours(nowS)?.forecast;
        for (const [method, said] of Object.entries({ ...quick(nowS), ...(left === undefined ? {} : { ours: left }) }))
          all.set(method, [...(all.get(method) ?? []), scored(nowS, said)]);
      }
      for (const [method, list] of all) everywhere.set(method, [...(everywhere.get(method) ?? []), ...list]);
    }
  }
  for (const [share, table] of at) {
    for (const [method, list] of table) {
      const where = { method, at: share, n: list.length };
      figure('mdape_remaining', '%', mdape(list), where);
      figure('late_share', '%', lateShare(list), where);
      coverageFigures(figure, list, where);
    }
  }
  for (const [method, list] of everywhere) figure('rmse_s', 's', rmse(list), { method, at: 'all points', n: list.length });
  const pooled = [...at.values()].flatMap((table) => table.get('ours') ?? []);
  coverageFigures(figure, pooled, { method: 'ours', at: 'pooled', n: pooled.length });
}

/** Coverage and width, where the method gives ranges. */
function coverageFigures(
  figure: ReturnType<typeof printer>,
  list: readonly Scored[],
  where: { readonly method: string; readonly at: string | number; readonly n: number },
): void {
  const covered = coverage(list);
  if (covered === null) return;
  figure('coverage80', '%', covered.value, { ...where, independent: covered.lives, by_chance: covered.interval.map(Math.round) });
  figure('width80', '%', covered.width, where);
}
