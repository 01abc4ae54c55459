import { median } from 'd3-array';
import { dayPlus, daysBetween } from '../../src/shared/day.js';
import { type Row, readOpenData } from './open-data.js';

interface Point {
  readonly day: string;
  readonly loadM3: number;
  readonly dpKpa: number;
}

/** One life of a filter, from new to its limit (`lifeDays` from the first point), with what earlier ones on the same duty ran. A second of a rig counts as a day. */
export interface CloggingLife {
  readonly name: string;
  readonly points: readonly Point[];
  readonly limit: number;
  readonly lifeDays: number;
  readonly earlierLives: readonly { readonly loadM3: number; readonly ended: 'limit' | 'censored' }[];
}

const START = '2000-01-01';

interface RigRun extends Omit<CloggingLife, 'earlierLives'> {
  readonly condition: string;
  readonly lifeLoad: number;
}

/** 24 runs of a liquid filter rig at 20 psi whose condition was run by others too; load = pumped volume times concentration. */
export function waterRig(): CloggingLife[] {
  const series = grouped(readOpenData('clogging_water_phme20/series_1hz.csv'));
  return leaveOneOut(
    readOpenData('clogging_water_phme20/runs.csv').map((run) => {
      const end = Number(run.t_dp20_median11_s);
      const rows = (series.get(run.run ?? '') ?? []).filter(({ sec }) => Number(sec) <= end);
      const load = (row: Row) => (Math.max(0, Number(row.flow_ml_min)) / 60) * Number(run.solid_pct);
      return rigRun(run, `${run.particle_um} ${run.solid_pct}`, 20, rows, load, 'dp_psi', 10);
    }),
  );
}

/** 60 runs of an air filter rig at 600 Pa whose feed speed was run by others too; load = time times feed speed. */
export function dustRig(): CloggingLife[] {
  const series = grouped(readOpenData('clogging_dust_esrel22/series_1hz.csv'));
  return leaveOneOut(
    readOpenData('clogging_dust_esrel22/runs.csv').map((run) => {
      const rows = (series.get(run.run ?? '') ?? []).filter(({ sec }) => Number(sec) <= Number(run.t_fail_s));
      return rigRun(run, run.feed_speed ?? '', 600, rows, () => Number(run.feed_speed), 'dp_pa', 3);
    }),
  );
}

function rigRun(run: Row, condition: string, limit: number, rows: readonly Row[], loadOf: (row: Row) => number, value: string, settledFrom: number): RigRun {
  let loadM3 = 0;
  const points: Point[] = [];
  for (const row of rows) {
    loadM3 += loadOf(row);
    if (Number(row.sec) >= settledFrom) points.push({ day: dayPlus(START, Number(row.sec)), loadM3, dpKpa: Number(row[value]) });
  }
  return { name: run.run ?? '', condition, points, limit, lifeLoad: loadM3, lifeDays: daysBetween(points[0]?.day ?? START, points.at(-1)?.day ?? START) };
}

function grouped(rows: readonly Row[]): Map<string, Row[]> {
  const groups = new Map<string, Row[]>();
  for (const row of rows) {
    const run = row.run ?? '';
    const group = groups.get(run);
    if (group === undefined) groups.set(run, [row]);
    else group.push(row);
  }
  return groups;
}

function leaveOneOut(runs: readonly RigRun[]): CloggingLife[] {
  return runs.map((run) => ({
    ...run,
    earlierLives: runs
      .filter((other) => other !== run && other.condition === run.condition)
      .map(({ lifeLoad }) => ({ loadM3: lifeLoad, ended: 'limit' as const })),
  }));
}

/** Times between changes of the shared cartridges of a reuse plant; no log of changes exists, they were read from the step drops. */
const PLANT_CYCLES = [
  ['2019-05-08', '2019-08-09'],
  ['2019-08-12', '2019-12-10'],
  ['2020-05-13', '2020-07-24'],
  ['2020-07-28', '2021-01-11'],
] as const;
/** Cycle and pressure drop (psi) that is to be forecast: limits that the cycle reached, chosen by us */
const PLANT_CASES = [
  [0, 6],
  [0, 9],
  [1, 4.5],
  [1, 6],
  [2, 9],
  [3, 4.5],
] as const;

/** Six cases from four cycles of a full-scale plant; the clock is days, since the flow through the cartridges is not recorded. */
export function plantCartridges(): CloggingLife[] {
  const rows = readOpenData('reuse_plant_ro/cartridge_dp_daily.csv');
  const cycle = (index: number) => {
    const [from, to] = PLANT_CYCLES[index] ?? [START, START];
    return rows
      .filter(({ date, cartridge_dp_psi }) => date !== undefined && date >= from && date <= to && cartridge_dp_psi !== '')
      .map((row) => ({ day: row.date ?? '', loadM3: daysBetween(from, row.date ?? ''), dpKpa: Number(row.cartridge_dp_psi) }));
  };
  return PLANT_CASES.map(([index, limit]) => {
    const points = cycle(index);
    const others = PLANT_CYCLES.flatMap((_, other) => (other === index ? [] : [cycle(other)]));
    return {
      name: `${PLANT_CYCLES[index]?.[0]} to ${limit} psi`,
      points,
      limit,
      lifeDays: reached(points, limit) ?? NaN,
      // A cycle that begins above half the limit did not begin with new cartridges.
      earlierLives: others
        .filter((other) => (median(other.slice(0, 7), ({ dpKpa }) => dpKpa) ?? limit) < limit / 2)
        .map((other) => {
          const life = reached(other, limit);
          return life === null ? { loadM3: other.at(-1)?.loadM3 ?? 0, ended: 'censored' as const } : { loadM3: life, ended: 'limit' as const };
        }),
    };
  });
}

/** Days from the first point until the median of seven is at the limit. */
function reached(points: readonly Point[], limit: number): number | null {
  for (let i = 3; i < points.length; i++) {
    if ((median(points.slice(Math.max(0, i - 6), i + 1), ({ dpKpa }) => dpKpa) ?? 0) >= limit)
      return daysBetween(points[0]?.day ?? START, points[i]?.day ?? START);
  }
  return null;
}
