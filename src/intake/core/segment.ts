import type { CycleFact } from './cycle-fact.js';
import { gatesNotResolvable, medianIntervalSeconds, type SamplingGate, type SamplingGates } from './gates.js';
import { cycleOfRun } from './run-to-cycle.js';
import { joinSamples, type Samples, takeRows, valueAt } from './samples.js';
import type { TmpBasis } from './tmp.js';

export interface SegmentSettings {
  /** Values of the operating mode that mean filtration; `null`, or samples without a mode: filtration is told from the flow */
  readonly filtrationModes: readonly number[] | null;
  readonly setPointM3h: number | null;
  /** A flow above this share of the set point is filtration; 0.8 by common practice */
  readonly filtrationFlowShare: number;
  /** Beyond it nobody knows what happened between two samples */
  readonly maxGapMinutes: number;
  /**
   * A run is cut at this length, so that a plant that goes days without a clean, or whose cleans fall between two samples, still gives values.
   * `null`: never
   */
  readonly longestMinutes: number | null;
  /** `null`: the median of the samples of the first part */
  readonly intervalSeconds: number | null;
  readonly gates: SamplingGates;
  readonly tmp: TmpBasis;
}

/** Where a part of the data left off: the run that is still open, or the last row before it. Plain data, so that it can be kept between two parts. */
export interface OpenEnd {
  readonly samples: Samples;
  readonly startSeen: boolean;
  readonly intervalSeconds: number | null;
}

export interface Segmentation {
  readonly cycles: readonly CycleFact[];
  /** Samples of a time not after the one before, samples whose state nothing tells, and runs of a single sample */
  readonly leftOut: { readonly timeNotRising: number; readonly stateUnknown: number; readonly noDuration: number };
  /** Gates that samples so far apart cannot resolve; they were not applied */
  readonly notResolvable: readonly SamplingGate[];
  readonly openEnd: OpenEnd;
}

/**
 * Filtration cycles from the raw samples of a skid, for sources that report none.
 *
 * A run lasts as long as the state is filtration. It ends at the first sample of another state (backwash, standby, clean), when the backwash counter moves within it,
 * when it is longer than a cycle may be, or with its last sample before a gap longer than allowed. The last sample holds until the one that ends the run. Standby is not a cycle. Samples without
 * a known state are passed over, as if they had not been taken.
 *
 * Long records come in parts: hand the open end of one part to the next, and the parts give the same cycles as the whole. At the end of the data
 * `closeOpenEnd` gives the run that is still open. Linear in the number of samples.
 *
 * Source: gating on the state of the plant, settling time and windows by common practice.
 */
export function segmentCycles(part: Samples, settings: SegmentSettings, before: OpenEnd | null = null): Segmentation {
  const samples = before ? joinSamples(before.samples, part) : part;
  const intervalSeconds = settings.intervalSeconds ?? before?.intervalSeconds ?? medianIntervalSeconds(samples.at);
  const notResolvable = gatesNotResolvable(settings.gates, intervalSeconds);
  const longestMs = (settings.longestMinutes ?? Number.POSITIVE_INFINITY) * 60_000;
  const leftOut = { timeNotRising: 0, stateUnknown: 0, noDuration: 0 };
  const cycles: CycleFact[] = [];
  let rows: number[] = [];
  let startSeen = before?.startSeen ?? false;
  let backwashCount: number | null = null;
  let last: { readonly row: number; readonly ms: number } | null = null;

  const endRun = (endRow: number | null, endSeen: boolean) => {
    if (rows.length === 0) return;
    const cycle = cycleOfRun(samples, { rows, endRow, startSeen, endSeen }, { ...settings, unresolved: notResolvable });
    if (cycle) cycles.push(cycle);
    else leftOut.noDuration += 1;
    rows = [];
    backwashCount = null;
  };

  for (let row = 0; row < samples.at.length; row += 1) {
    const ms = samples.at[row] ?? Number.NaN;
    if (last !== null && !(ms > last.ms)) {
      leftOut.timeNotRising += 1;
      continue;
    }
    const filtering = isFiltering(samples, row, settings);
    if (filtering === null) {
      leftOut.stateUnknown += 1;
      continue;
    }
    const afterGap = last !== null && ms - last.ms > settings.maxGapMinutes * 60_000;
    const count = valueAt(samples, 'backwash_count', row);
    const washed = count !== null && backwashCount !== null && count !== backwashCount;
    const tooLong = rows[0] !== undefined && ms - (samples.at[rows[0]] ?? ms) >= longestMs;
    if (afterGap) endRun(null, false);
    else if (!filtering || washed) endRun(row, true);
    else if (tooLong) endRun(row, false);
    if (filtering && rows.length === 0 && last !== null) startSeen = !afterGap && (washed || !tooLong);
    if (filtering) {
      rows.push(row);
      backwashCount = count ?? backwashCount;
    }
    last = { row, ms };
  }
  const openRows = rows.length > 0 ? rows : last ? [last.row] : [];
  return { cycles, leftOut, notResolvable, openEnd: { samples: takeRows(samples, openRows), startSeen, intervalSeconds } };
}

/** The run that was still open where the data end, as a cycle that is not known to be over; `null` where none was. */
export function closeOpenEnd(openEnd: OpenEnd, settings: SegmentSettings): CycleFact | null {
  const rows = Array.from(openEnd.samples.at, (_, row) => row);
  if (!rows.every((row) => isFiltering(openEnd.samples, row, settings) === true)) return null;
  const unresolved = gatesNotResolvable(settings.gates, openEnd.intervalSeconds);
  return cycleOfRun(openEnd.samples, { rows, endRow: null, startSeen: openEnd.startSeen, endSeen: false }, { ...settings, unresolved });
}

function isFiltering(samples: Samples, row: number, settings: SegmentSettings): boolean | null {
  if (settings.filtrationModes !== null && samples.columns.mode) {
    const mode = valueAt(samples, 'mode', row);
    return mode === null ? null : settings.filtrationModes.includes(mode);
  }
  const flowM3h = valueAt(samples, 'filtrate_flow', row);
  return settings.setPointM3h === null || flowM3h === null ? null : flowM3h > settings.filtrationFlowShare * settings.setPointM3h;
}
