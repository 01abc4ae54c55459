import type { CycleFact } from '../../intake/core/cycle-fact.js';
import type { CycleAssessment } from './assess-cycle.js';
import { localDays } from './local-day.js';
import { type SaidOfDay, SignalsOfDay } from './signals-of-day.js';

/** What the cycles of one calendar day at the site say. */
export interface DailyCondition extends SaidOfDay {
  /** YYYY-MM-DD in the site's time zone */
  readonly day: string;
  readonly filtrationHours: number;
  /** `null` where nothing tells the volume or flow of any cycle */
  readonly filtrateM3: number | null;
  /** Some of it comes from flow and time and not from a measured volume */
  readonly filtrateEstimated: boolean;
}

/**
 * Condition by day, the grain that trends and forecasts work on: one robust value a day instead of dozens of cycles that resemble each other.
 *
 * A cycle belongs to the day on which it began. Its hours and filtrate are shared out over the days that it touches, in proportion to time, so that a run
 * of several days does not put 60 hours into one. Volume: as measured; else flow times time; cycles that tell neither count at the mean rate of the others.
 * Percentiles by linear interpolation between order statistics (type 7 of Hyndman and Fan). Days without any cycle are absent. Any order of input;
 * n log n for the sort, linear after that: the assessments of one day are all that is held at a time.
 *
 * Source: one value a day before a trend is fitted (common practice, because cycles are strongly autocorrelated).
 *
 * @example dailyCondition([], 'Etc/UTC', () => ({ membrane: { kind: 'left-out', reason: 'no flow' }, cartridge: { kind: 'left-out', reason: 'no flow' } })) // => []
 */
export function dailyCondition(
  cycles: readonly CycleFact[],
  timeZone: string,
  /** What a cycle says, which began on that day */
  assess: (cycle: CycleFact, day: string) => CycleAssessment,
): DailyCondition[] {
  const dayOf = localDays(timeZone);
  const loads = new Map<string, Load>();
  const said = new Map<string, SaidOfDay>();
  const signals = new SignalsOfDay();
  const inOrder = isInOrder(cycles) ? cycles : [...cycles].sort((a, b) => a.startedAt.getTime() - b.startedAt.getTime());
  let [startDay, load]: [string, Load] = ['', { ...NO_LOAD }];
  for (const cycle of inOrder) {
    const startMs = cycle.startedAt.getTime();
    const endMs = Math.max(cycle.endedAt.getTime(), startMs);
    let day = dayOf(startMs);
    if (day.day !== startDay) {
      if (startDay !== '') said.set(startDay, signals.take());
      [startDay, load] = [day.day, loadOf(loads, day.day)];
    }
    signals.add(cycle, assess(cycle, startDay));
    addLoad(load, cycle, endMs > startMs ? (Math.min(endMs, day.toMs) - startMs) / (endMs - startMs) : 1);
    while (endMs > day.toMs) {
      day = dayOf(day.toMs);
      addLoad(loadOf(loads, day.day), cycle, (Math.min(endMs, day.toMs) - day.fromMs) / (endMs - startMs));
    }
  }
  if (startDay !== '') said.set(startDay, signals.take());
  const nothing = signals.take();
  return [...loads].sort(([a], [b]) => (a < b ? -1 : 1)).map(([day, ofDay]) => summary(day, ofDay, said.get(day) ?? nothing));
}

function isInOrder(cycles: readonly CycleFact[]): boolean {
  let before = Number.NEGATIVE_INFINITY;
  for (const { startedAt } of cycles) {
    const ms = startedAt.getTime();
    if (ms < before) return false;
    before = ms;
  }
  return true;
}

interface Load {
  hours: number;
  knownM3: number;
  knownHours: number;
  volumeKnown: boolean;
  estimated: boolean;
}

const NO_LOAD: Load = { hours: 0, knownM3: 0, knownHours: 0, volumeKnown: false, estimated: false };

function loadOf(loads: Map<string, Load>, day: string): Load {
  const known = loads.get(day);
  if (known) return known;
  const load = { ...NO_LOAD };
  loads.set(day, load);
  return load;
}

function addLoad(load: Load, cycle: CycleFact, share: number): void {
  const hours = (cycle.filtrationMinutes / 60) * share;
  load.hours += hours;
  if (cycle.filtrateM3 === null && hours > 0) load.estimated = true;
  const m3 = cycle.filtrateM3 !== null ? cycle.filtrateM3 * share : cycle.flowM3h !== null && hours > 0 ? cycle.flowM3h * hours : null;
  if (m3 === null) return;
  load.volumeKnown = true;
  load.knownM3 += m3;
  load.knownHours += hours;
}

function summary(day: string, load: Load, { cycles, ...said }: SaidOfDay): DailyCondition {
  const scaleUp = load.knownHours > 0 ? load.hours / load.knownHours : 1;
  return {
    day,
    cycles,
    filtrationHours: load.hours,
    filtrateM3: load.volumeKnown ? load.knownM3 * scaleUp : null,
    filtrateEstimated: load.estimated,
    ...said,
  };
}
