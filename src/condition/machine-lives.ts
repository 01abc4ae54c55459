import { Injectable } from '@nestjs/common';
import { cumsum } from 'd3-array';
import { Clock } from '../app/index.js';
import { IntakeFacts, type MeterRow, type StateRow } from '../intake/index.js';
import { averageDailyUse } from './core/daily-use.js';
import type { LifePoint } from './core/life-at.js';
import { lifeByStates } from './core/life-by-states.js';
import { lifeByMeter, type MeterEvent } from './core/meter.js';
import { MachinesRepository, type PositionRow } from './machines.repository.js';

export type Counter = 'run hours' | 'starts' | 'cycles' | 'strokes';

/** What one counter of a machine says. */
export interface MachineLife {
  readonly positionId: string;
  readonly counter: Counter;
  /** The value that people read today; for a counter in place since the start, its display */
  readonly life: number;
  readonly asOf: Date;
  readonly dailyUse: number | null;
  /** In words */
  readonly source: string;
  readonly rejected: readonly string[];
  /** Counted since the first reading, in order of time */
  readonly points: readonly LifePoint[];
}

const LIVING_BY_CYCLES: ReadonlySet<string> = new Set(['pre-filter']);
const WINDOW = { windowDays: 60, leastDays: 7 };
/** Beyond this a machine without an hour meter is neither running nor standing: nothing is known. Common practice: three samples of ten minutes. */
const STATE_GAP_MINUTES = 30;

/** Life and recent use of every machine of a skid, by hour meter or counter, else by on/off samples, else by the skid's cycles. */
@Injectable()
export class MachineLives {
  constructor(
    private readonly intake: IntakeFacts,
    private readonly machines: MachinesRepository,
    private readonly clock: Clock,
  ) {}

  async ofSkid(skid: { id: string; no: number }): Promise<MachineLife[]> {
    const [meters, states, positions, cycleDays] = await Promise.all([
      this.intake.metersOf(skid.id),
      this.intake.statesOf(skid.id),
      this.machines.positionsOf(skid.id),
      this.machines.cyclesByDay(skid.no),
    ]);
    const now = this.clock.now();
    const metered = meters.flatMap((meter) => byMeter(meter, now));
    const known = new Set(metered.map(({ positionId, counter }) => `${positionId} ${counter}`));
    const sampled = states.flatMap(byStates).filter(({ positionId, counter }) => !known.has(`${positionId} ${counter}`));
    return [...metered, ...sampled, ...positions.flatMap((position) => byCycles(position, cycleDays, known))];
  }
}

function byMeter(meter: MeterRow, now: Date): MachineLife[] {
  const hours = meter.kind === 'run hours';
  const events = meter.readings.map(
    ({ at, kind, value, oldFinal }): MeterEvent => (kind === 'exchange' ? { kind, at, oldFinal, newInitial: value } : { kind, at, value }),
  );
  const { points, rejected } = lifeByMeter(events, { modulus: meter.modulus, mostPerHour: hours ? 1 : null, step: hours ? 1 : 0 }, now);
  const first = meter.readings[0];
  const offset = first?.kind === 'reading' ? first.value : 0;
  const texts = rejected.map(
    ({ event, reason }) => `${event.kind === 'reading' ? event.value : 'exchange'} on ${event.at.toISOString().slice(0, 10)}: ${reason}`,
  );
  return lifeOf(meter.positionId, meter.kind as Counter, points, { offset, source: hours ? 'hour meter' : 'counter', rejected: texts });
}

function byStates({ positionId, at, running }: StateRow): MachineLife[] {
  const samples = at.map((moment, index) => ({ at: moment, on: running[index] ?? false }));
  const { hours, starts } = lifeByStates(samples, STATE_GAP_MINUTES);
  const about = { offset: 0, source: 'on/off samples', rejected: [] };
  return [...lifeOf(positionId, 'run hours', hours, about), ...lifeOf(positionId, 'starts', starts, about)];
}

/** Cartridges live through the cycles of their skid; an automatic valve strokes so many times in each. */
function byCycles({ id, kind, strokesPerCycle }: PositionRow, days: readonly { at: Date; cycles: number }[], known: ReadonlySet<string>): MachineLife[] {
  const counter = strokesPerCycle === null ? 'cycles' : 'strokes';
  if (known.has(`${id} ${counter}`) || (strokesPerCycle === null && !LIVING_BY_CYCLES.has(kind))) return [];
  const sums = cumsum(days, ({ cycles }) => cycles * (strokesPerCycle ?? 1));
  const points = days.map(({ at }, index) => ({ at, life: sums[index] ?? 0 }));
  const source = strokesPerCycle === null ? 'cycles of the skid' : `cycles of the skid times ${strokesPerCycle} strokes`;
  return lifeOf(id, counter, points, { offset: 0, source, rejected: [] });
}

function lifeOf(
  positionId: string,
  counter: Counter,
  points: readonly LifePoint[],
  about: { offset: number; source: string; rejected: readonly string[] },
): MachineLife[] {
  const last = points.at(-1);
  if (last === undefined) return [];
  const use = averageDailyUse(points, { ...WINDOW, mostPerDay: counter === 'run hours' ? 24 : null });
  return [
    {
      positionId,
      counter,
      life: about.offset + last.life,
      asOf: last.at,
      dailyUse: use.kind === 'daily-use' ? use.perDay : null,
      source: about.source,
      rejected: about.rejected,
      points,
    },
  ];
}
