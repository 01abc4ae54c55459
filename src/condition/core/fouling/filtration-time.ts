import { median } from 'd3-array';
import type { CycleFact } from '../../../intake/core/cycle-fact.js';
import { temperatureCorrection } from '../temperature-correction.js';

export type TimedRun = Pick<CycleFact, 'startedAt' | 'filtrationMinutes' | 'flowM3h' | 'tmpStartKpa' | 'tmpEndKpa' | 'temperatureC'>;

/** What a time of filtration would give with the water of the last days. */
export interface TimeOption {
  readonly minutes: number;
  readonly runsPerDay: number;
  readonly filtrateM3PerDay: number;
  /** Transmembrane pressure at the end of a run */
  readonly endKpa: number;
  /** Filtrate less the water of the hydraulic cleans; null: their volume is not known */
  readonly netM3PerDay: number | null;
  /** `netM3PerDay` over the filtrate */
  readonly recovery: number | null;
}

export type FiltrationTime =
  | {
      readonly kind: 'times';
      readonly minutes: number;
      /** From the end of a run to the beginning of the next */
      readonly downMinutes: number;
      readonly flowM3h: number;
      readonly startKpa: number;
      /** Within a run, at the flow and temperature of the last days: with their water, and with that of the weeks before */
      readonly riseKpaPerMinute: number;
      readonly usualRiseKpaPerMinute: number;
      /** Minutes after which the pressure has risen as much as usual; null: it rises as usual */
      readonly wished: number | null;
      readonly options: readonly TimeOption[];
    }
  | { readonly kind: 'too-little-data'; readonly have: number; readonly need: number };

const DAY_MS = 86_400_000;
const RECENT_DAYS = 3;
const LEAST_RECENT = 20;
const LEAST_USUAL = 100;
const REFERENCE_C = 20;
/** A longer gap is a standstill and no clean. */
const LONGEST_CLEAN_MIN = 30;
const MINUTES_A_DAY = 1440;
/** Common practice: runs of twenty minutes to an hour; in bad water shorter ones, hardly under twenty minutes. */
const USUAL_TIMES = [20, 30, 40, 50, 60] as const;
const SHORTEST = 20;
/** From so much of the usual rise on the water is bad: below it the scatter of days is as large. */
const BAD_WATER = 1.25;

interface Risen {
  readonly at: number;
  readonly minutes: number;
  readonly flowM3h: number;
  readonly startKpa: number;
  readonly correction: number;
  /** Rise a minute, over the correction and the square of the flow */
  readonly index: number;
}

/**
 * What other times of filtration would give with the water of the last three days: runs a day, filtrate, pressure at the end of a run, and, where the volume of a hydraulic clean is known, net filtrate and
 * recovery. The wished time is that after which the pressure within a run has risen as much as it did in the weeks before.
 *
 * Within a run the pressure grows in a straight line, by the flow squared and the viscosity (a cake at constant flux); runs a day = 1440 / (minutes + time of a clean). What shorter runs do to the fouling that stays is
 * not in it. At least 20 runs of the last days and 100 from before are needed, with pressures at their start and end.
 *
 * Source: cake filtration at constant flux (dP = J mu R + J^2 mu I t); choosing by the usual rise is our own.
 *
 * @example filtrationTimes([], null) // => { "kind": "too-little-data", "have": 0, "need": 20 }
 */
export function filtrationTimes(runs: readonly TimedRun[], cleanM3: number | null): FiltrationTime {
  const until = runs.at(-1)?.startedAt.getTime() ?? 0;
  const risen = runs.flatMap(risenIn);
  const recent = risen.filter(({ at }) => at > until - RECENT_DAYS * DAY_MS);
  const before = risen.filter(({ at }) => at <= until - RECENT_DAYS * DAY_MS);
  if (recent.length < LEAST_RECENT) return { kind: 'too-little-data', have: recent.length, need: LEAST_RECENT };
  if (before.length < LEAST_USUAL) return { kind: 'too-little-data', have: before.length, need: LEAST_USUAL };
  const of = (list: readonly Risen[], what: (run: Risen) => number) => median(list, what) ?? 0;
  const minutes = of(recent, (run) => run.minutes);
  const flowM3h = of(recent, (run) => run.flowM3h);
  const startKpa = of(recent, (run) => run.startKpa);
  const scale = flowM3h ** 2 * of(recent, (run) => run.correction);
  const riseKpaPerMinute = of(recent, ({ index }) => index) * scale;
  const usualRiseKpaPerMinute = of(before, ({ index }) => index) * scale;
  const downMinutes = downOf(runs.filter(({ startedAt }) => startedAt.getTime() > until - RECENT_DAYS * DAY_MS));
  const isBad = usualRiseKpaPerMinute > 0 && riseKpaPerMinute > BAD_WATER * usualRiseKpaPerMinute && minutes > SHORTEST;
  const wished = isBad ? Math.round(Math.max(SHORTEST, (minutes * usualRiseKpaPerMinute) / riseKpaPerMinute)) : null;
  const option = (time: number): TimeOption => {
    const runsPerDay = MINUTES_A_DAY / (time + downMinutes);
    const filtrateM3PerDay = ((flowM3h * time) / 60) * runsPerDay;
    const net = cleanM3 === null ? null : filtrateM3PerDay - cleanM3 * runsPerDay;
    return {
      minutes: time,
      runsPerDay,
      filtrateM3PerDay,
      endKpa: startKpa + riseKpaPerMinute * time,
      netM3PerDay: net,
      recovery: net === null ? null : net / filtrateM3PerDay,
    };
  };
  const times = [...new Set([...USUAL_TIMES, Math.round(minutes), ...(wished === null ? [] : [wished])])].sort((one, other) => one - other);
  return { kind: 'times', minutes, downMinutes, flowM3h, startKpa, riseKpaPerMinute, usualRiseKpaPerMinute, wished, options: times.map(option) };
}

function risenIn({ startedAt, filtrationMinutes: minutes, flowM3h, tmpStartKpa, tmpEndKpa, temperatureC }: TimedRun): Risen[] {
  if (flowM3h === null || tmpStartKpa === null || tmpEndKpa === null || temperatureC === null || !(flowM3h > 0) || !(minutes > 0)) return [];
  const correction = temperatureCorrection(temperatureC, REFERENCE_C);
  const index = (tmpEndKpa - tmpStartKpa) / minutes / correction / flowM3h ** 2;
  return [{ at: startedAt.getTime(), minutes, flowM3h, startKpa: tmpStartKpa, correction, index }];
}

/** Time between runs, the middle one; zero where none is known. */
function downOf(runs: readonly TimedRun[]): number {
  const downs = runs.flatMap(({ startedAt, filtrationMinutes }, at) => {
    const next = runs[at + 1];
    const down = next === undefined ? Number.NaN : (next.startedAt.getTime() - startedAt.getTime()) / 60_000 - filtrationMinutes;
    return down >= 0 && down <= LONGEST_CLEAN_MIN ? [down] : [];
  });
  return median(downs) ?? 0;
}
