import { median } from 'd3-array';
import { QUALITY } from '../../shared/quality.js';
import type { SignalCode } from '../../shared/signals.js';
import type { CycleFact } from './cycle-fact.js';
import type { SamplingGate, SamplingGates } from './gates.js';
import { type Samples, valueAt } from './samples.js';
import { type TmpBasis, transmembraneKpa } from './tmp.js';

/** Rows of one run in filtration. A gap, the edge of the data or the longest length cut a run: then its true start or end was not seen. */
export interface Run {
  readonly rows: readonly number[];
  /** The row that ended it; `null` where it ends with its own last row */
  readonly endRow: number | null;
  readonly startSeen: boolean;
  readonly endSeen: boolean;
}

const MINUTE_MS = 60_000;

/**
 * The summary of one run in filtration: medians of its settled part, transmembrane pressure at its start and end where sampling and data show them, and the
 * filtrate. A run with no settled sample keeps its time and filtrate and is flagged `notSettled`. Nothing for a run without duration.
 *
 * Filtrate is the difference of the totaliser where it was read at both ends and did not go back, else the mean flow held from sample to sample times the
 * time, where flow is known for at least half of it.
 *
 * Source: common practice.
 */
export function cycleOfRun(
  samples: Samples,
  run: Run,
  { gates, tmp, unresolved }: { gates: SamplingGates; tmp: TmpBasis; unresolved: readonly SamplingGate[] },
): CycleFact | null {
  const timeOf = (row: number | undefined) => (row === undefined ? Number.NaN : (samples.at[row] ?? Number.NaN));
  const startMs = timeOf(run.rows[0]);
  const endMs = timeOf(run.endRow ?? run.rows.at(-1));
  if (!(endMs > startMs)) return null;

  const between = (fromMs: number, toMs: number) => run.rows.filter((row) => timeOf(row) >= fromMs && timeOf(row) < toMs);
  const settled = unresolved.includes('settling time') ? run.rows : between(startMs + gates.settleSeconds * 1000, Number.POSITIVE_INFINITY);
  const rows = settled.length > 0 ? settled : run.rows;
  const middle = (code: SignalCode) => median(rows, (row) => valueAt(samples, code, row)) ?? null;
  const tmpOver = (window: readonly number[]) => median(window, (row) => tmpAt(samples, row, tmp)) ?? null;
  const showsStart = run.startSeen && !unresolved.includes('start of cycle');
  const showsEnd = run.endSeen && !unresolved.includes('end of cycle');
  return {
    startedAt: new Date(startMs),
    endedAt: new Date(endMs),
    filtrationMinutes: (endMs - startMs) / MINUTE_MS,
    filtrateM3: totalisedM3(samples, run) ?? integratedM3(samples, run.rows, endMs),
    flowM3h: middle('filtrate_flow'),
    feedKpa: middle('feed_pressure'),
    filtrateKpa: middle('filtrate_pressure'),
    concentrateKpa: middle('concentrate_pressure'),
    tmpKpa: middle('tmp'),
    tmpStartKpa: showsStart ? tmpOver(between(startMs + gates.startFromMinutes * MINUTE_MS, startMs + gates.startToMinutes * MINUTE_MS)) : null,
    tmpEndKpa: showsEnd ? tmpOver(between(endMs - gates.endMinutes * MINUTE_MS, endMs)) : null,
    temperatureC: middle('temperature'),
    cartridgeDpKpa: median(rows, (row) => cartridgeDpAt(samples, row)) ?? null,
    feedTurbidityNtu: middle('feed_turbidity'),
    quality: settled.length > 0 ? QUALITY.good : QUALITY.notSettled,
    byHand: false,
  };
}

function tmpAt(samples: Samples, row: number, basis: TmpBasis): number | null {
  const pressures = {
    feedKpa: valueAt(samples, 'feed_pressure', row),
    filtrateKpa: valueAt(samples, 'filtrate_pressure', row),
    concentrateKpa: valueAt(samples, 'concentrate_pressure', row),
    tmpKpa: valueAt(samples, 'tmp', row),
  };
  const result = transmembraneKpa(pressures, basis);
  return result.kind === 'transmembrane' ? result.tmpKpa : null;
}

function cartridgeDpAt(samples: Samples, row: number): number | null {
  const measured = valueAt(samples, 'cartridge_dp', row);
  const before = valueAt(samples, 'cartridge_inlet_pressure', row);
  const after = valueAt(samples, 'cartridge_outlet_pressure', row);
  return measured ?? (before !== null && after !== null ? before - after : null);
}

function totalisedM3(samples: Samples, { rows, endRow }: Run): number | null {
  const first = valueAt(samples, 'filtrate_total', rows[0] ?? -1);
  const last = valueAt(samples, 'filtrate_total', endRow ?? rows.at(-1) ?? -1);
  return first !== null && last !== null && last >= first ? last - first : null;
}

function integratedM3(samples: Samples, rows: readonly number[], endMs: number): number | null {
  let knownMs = 0;
  let allMs = 0;
  let flowTimesMs = 0;
  for (const [i, row] of rows.entries()) {
    const next = rows[i + 1];
    const heldMs = (next === undefined ? endMs : (samples.at[next] ?? endMs)) - (samples.at[row] ?? endMs);
    const flowM3h = valueAt(samples, 'filtrate_flow', row);
    allMs += heldMs;
    if (flowM3h === null) continue;
    knownMs += heldMs;
    flowTimesMs += flowM3h * heldMs;
  }
  return knownMs > 0 && knownMs >= allMs / 2 ? (flowTimesMs / knownMs) * (allMs / 3_600_000) : null;
}
