import { quantileSorted } from 'd3-array';
import type { CycleFact } from '../../intake/core/cycle-fact.js';
import type { CycleAssessment } from './assess-cycle.js';
import type { LeftOutReason } from './left-out.js';
import { localDays } from './local-day.js';
import { middle } from './middle.js';

export interface AssessedCycle {
  readonly cycle: CycleFact;
  readonly assessment: CycleAssessment;
}

type Counts = Readonly<Partial<Record<LeftOutReason, number>>>;

/** What the cycles of one calendar day at the site say. Medians are over the cycles that were not left out; `null` where there is none. */
export interface DailyCondition {
  /** YYYY-MM-DD in the site's time zone */
  readonly day: string;
  /** Cycles that began on this day */
  readonly cycles: number;
  readonly filtrationHours: number;
  /** `null` where nothing tells the volume or flow of any cycle */
  readonly filtrateM3: number | null;
  /** Some of it comes from flow and time and not from a measured volume */
  readonly filtrateEstimated: boolean;
  /** Normalised; low and high are the 10th and 90th percentile */
  readonly permeability: { readonly median: number; readonly low: number; readonly high: number; readonly n: number } | null;
  readonly permeabilityStart: number | null;
  readonly fluxLmh: number | null;
  readonly tmpKpa: number | null;
  readonly temperatureC: number | null;
  /** At reference flow and temperature */
  readonly cartridgeDpKpa: number | null;
  readonly feedTurbidityNtu: number | null;
  /** Cycles left out for the membrane, by reason */
  readonly leftOut: Counts;
  /** Cycles left out for the cartridge, by reason */
  readonly cartridgeLeftOut: Counts;
  /** Nothing but readings by hand */
  readonly byHand: boolean;
}

/**
 * Condition by day, the grain that trends and forecasts work on: one robust value a day instead of dozens of cycles that resemble each other.
 *
 * A cycle belongs to the day on which it began. Its hours and filtrate are shared out over the days that it touches, in proportion to time, so that a run
 * of several days does not put 60 hours into one. Volume: as measured; else flow times time; cycles that tell neither count at the mean rate of the others.
 * Percentiles by linear interpolation between order statistics (type 7 of Hyndman and Fan). Days without any cycle are absent. Any order of input;
 * n log n for the sort, linear after that.
 *
 * Source: one value a day before a trend is fitted (common practice, because cycles are strongly autocorrelated).
 *
 * @example dailyCondition([], 'Etc/UTC') // => []
 */
export function dailyCondition(cycles: readonly AssessedCycle[], timeZone: string): DailyCondition[] {
  const dayOf = localDays(timeZone);
  const days = new Map<string, Tally>();
  const inOrder = [...cycles].sort((a, b) => a.cycle.startedAt.getTime() - b.cycle.startedAt.getTime());
  for (const assessed of inOrder) {
    const { cycle } = assessed;
    const startMs = cycle.startedAt.getTime();
    const endMs = Math.max(cycle.endedAt.getTime(), startMs);
    let day = dayOf(startMs);
    const tally = tallyOf(days, day.day);
    tally.assessed.push(assessed);
    addLoad(tally, cycle, endMs > startMs ? (Math.min(endMs, day.toMs) - startMs) / (endMs - startMs) : 1);
    while (endMs > day.toMs) {
      day = dayOf(day.toMs);
      addLoad(tallyOf(days, day.day), cycle, (Math.min(endMs, day.toMs) - day.fromMs) / (endMs - startMs));
    }
  }
  return [...days].sort(([a], [b]) => (a < b ? -1 : 1)).map(([day, tally]) => summary(day, tally));
}

interface Tally {
  readonly assessed: AssessedCycle[];
  hours: number;
  knownM3: number;
  knownHours: number;
  volumeKnown: boolean;
  estimated: boolean;
}

function tallyOf(days: Map<string, Tally>, day: string): Tally {
  const known = days.get(day);
  if (known) return known;
  const tally = { assessed: [], hours: 0, knownM3: 0, knownHours: 0, volumeKnown: false, estimated: false };
  days.set(day, tally);
  return tally;
}

function addLoad(tally: Tally, cycle: CycleFact, share: number): void {
  const hours = (cycle.filtrationMinutes / 60) * share;
  tally.hours += hours;
  if (cycle.filtrateM3 === null && hours > 0) tally.estimated = true;
  const m3 = cycle.filtrateM3 !== null ? cycle.filtrateM3 * share : cycle.flowM3h !== null && hours > 0 ? cycle.flowM3h * hours : null;
  if (m3 === null) return;
  tally.volumeKnown = true;
  tally.knownM3 += m3;
  tally.knownHours += hours;
}

function summary(day: string, tally: Tally): DailyCondition {
  const cycles = tally.assessed.map(({ cycle }) => cycle);
  const membranes = tally.assessed.map(({ assessment }) => assessment.membrane);
  const cartridges = tally.assessed.map(({ assessment }) => assessment.cartridge);
  const good = membranes.filter((part) => part.kind === 'assessed');
  const scaleUp = tally.knownHours > 0 ? tally.hours / tally.knownHours : 1;
  return {
    day,
    cycles: cycles.length,
    filtrationHours: tally.hours,
    filtrateM3: tally.volumeKnown ? tally.knownM3 * scaleUp : null,
    filtrateEstimated: tally.estimated,
    permeability: spread(good.map((part) => part.permeabilityLmhBar)),
    permeabilityStart: middle(good.map((part) => part.permeabilityStartLmhBar)),
    fluxLmh: middle(good.map((part) => part.fluxLmh)),
    tmpKpa: middle(good.map((part) => part.tmpKpa)),
    temperatureC: middle(good.map((part) => part.temperatureC)),
    cartridgeDpKpa: middle(cartridges.map((part) => (part.kind === 'assessed' ? part.cartridgeDpRefKpa : null))),
    feedTurbidityNtu: middle(cycles.map((cycle) => cycle.feedTurbidityNtu)),
    leftOut: counts(membranes),
    cartridgeLeftOut: counts(cartridges),
    byHand: cycles.length > 0 && cycles.every((cycle) => cycle.byHand),
  };
}

function spread(values: readonly number[]): DailyCondition['permeability'] {
  const sorted = [...values].sort((a, b) => a - b);
  const [low, half, high] = [0.1, 0.5, 0.9].map((p) => quantileSorted(sorted, p));
  return low === undefined || half === undefined || high === undefined ? null : { median: half, low, high, n: sorted.length };
}

function counts(parts: readonly (CycleAssessment['membrane'] | CycleAssessment['cartridge'])[]): Counts {
  const byReason: Partial<Record<LeftOutReason, number>> = {};
  for (const part of parts) if (part.kind === 'left-out') byReason[part.reason] = (byReason[part.reason] ?? 0) + 1;
  return byReason;
}
