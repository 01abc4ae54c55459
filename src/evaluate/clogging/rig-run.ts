import { group as groupBy, median } from 'd3-array';
import { BadInput } from '../evaluation.js';
import { columnOf, numberIn, type Row, readTable } from '../read-table.js';

/** One run of a clogging rig, from new to its limit. */
export interface RigRun {
  readonly name: string;
  /** Runs of one condition were made alike; those of one group with the same particles, at other loads */
  readonly condition: string;
  readonly group: string;
  /** What the load rate of the condition is proportional to; 1 where nothing is said */
  readonly strength: number;
  readonly order: number;
  readonly limit: number;
  /** Seconds from the start to the limit, and what had run through by then */
  readonly lifeS: number;
  readonly lifeLoad: number;
  /** Ascending; the load is what has run through by then */
  readonly timeS: readonly number[];
  readonly load: readonly number[];
  readonly value: readonly number[];
}

const VALUES = ['dp_psi', 'dp_pa', 'dp'];
const STRENGTHS = ['solid_pct', 'feed_speed'];
const GROUPS = ['particle_um', 'dust'];
/** Settling of the rig: the first rows are left out where no load runs yet. */
const SETTLED_AFTER_S: Readonly<Record<string, number>> = { dp_psi: 10, dp_pa: 3 };
const JUDGED_BY = 11;

/**
 * Reads the runs of a rig. `loadColumns` are multiplied into the load rate: columns of the series or of the runs. Left out, they are the pumped flow and the concentration, or
 * the speed of the feeder.
 */
export function readRig(files: { readonly runs: string; readonly series: string }, limit: number, loadColumns: readonly string[] | null): RigRun[] {
  const runs = readTable(files.runs, ['run']);
  const series = readTable(files.series, ['run', 'sec']);
  const value = columnOf(series, VALUES);
  if (value === null) throw new BadInput(`${files.series} needs the pressure drop in one of ${VALUES.join(', ')}`);
  const strength = columnOf(runs, STRENGTHS);
  const group = columnOf(runs, GROUPS);
  const columns = loadColumns ?? [strength, columnOf(series, ['flow_ml_min'])].filter((column) => column !== null);
  for (const column of columns)
    if (runs[0]?.[column] === undefined && series[0]?.[column] === undefined) throw new BadInput(`--load names ${column}, which neither file has`);
  const rowsOf = groupBy(series, (row) => row.run ?? '');
  return runs.flatMap((run, at) => {
    const rows = (rowsOf.get(run.run ?? '') ?? []).filter((row) => numberIn(row, 'sec') !== null && numberIn(row, value) !== null);
    const lifeS = lifeOf(run, rows, value, limit);
    if (lifeS === null) return []; // never at the limit: nothing to compare with
    const course = courseOf(run, rows, columns, value, lifeS);
    if (course.timeS.length === 0) return [];
    const condition = [group, strength].map((column) => (column === null ? '' : (run[column] ?? ''))).join(' ');
    return [
      {
        name: run.run ?? '',
        condition,
        group: group === null ? '' : (run[group] ?? ''),
        strength: strength === null ? 1 : (numberIn(run, strength) ?? 1),
        order: numberIn(run, 'run') ?? at,
        limit,
        lifeS,
        ...course,
      },
    ];
  });
}

/** The run as it was recorded until its limit: time at the middle of each second, load from the start, value. */
function courseOf(
  run: Row,
  rows: readonly Row[],
  columns: readonly string[],
  value: string,
  lifeS: number,
): Pick<RigRun, 'timeS' | 'load' | 'value' | 'lifeLoad'> {
  const settled = SETTLED_AFTER_S[value] ?? 0;
  const course = { timeS: [] as number[], load: [] as number[], value: [] as number[] };
  let [load, before, lifeLoad] = [0, 0, 0];
  for (const row of rows) {
    const sec = numberIn(row, 'sec') ?? 0;
    const rate = columns.reduce((product, column) => product * Math.max(0, numberIn(row, column) ?? numberIn(run, column) ?? 0), 1);
    if (before < lifeS) lifeLoad += rate * (Math.min(lifeS, sec + 0.5) - before);
    load += rate * (sec + 0.5 - before);
    before = sec + 0.5;
    if (sec < settled || before > lifeS) continue;
    course.timeS.push(before);
    course.load.push(load);
    course.value.push(numberIn(row, value) ?? 0);
  }
  return { ...course, lifeLoad };
}

/** When the limit was met: as the table of runs says for this limit, otherwise when the median of eleven values first met it. */
function lifeOf(run: Row, rows: readonly Row[], value: string, limit: number): number | null {
  const said = numberIn(run, `t_dp${limit}_median11_s`);
  if (said !== null) return said;
  const last = numberIn(run, 'dp_last_pa');
  const failed = numberIn(run, 't_fail_s');
  if (failed !== null && (last === null || Math.abs(last / limit - 1) < 0.05)) return failed;
  const values = rows.map((row) => numberIn(row, value) ?? 0);
  const met = values.findIndex((_, at) => (median(values.slice(Math.max(0, at - JUDGED_BY + 1), at + 1)) ?? 0) >= limit);
  return met < 0 ? null : (numberIn(rows[met] ?? {}, 'sec') ?? 0) + 0.5;
}
