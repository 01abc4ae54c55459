import { QUALITY } from '../../shared/quality.js';
import type { SignalCode } from '../../shared/signals.js';
import { SIGNALS } from '../../shared/signals.js';
import type { CycleFact } from './cycle-fact.js';
import type { FieldFault } from './event.js';
import { measuredValue } from './measured-value.js';
import type { FieldsRead } from './read-fields.js';
import type { TimeReader } from './read-time.js';

export type CycleRead = { readonly kind: 'cycle'; readonly cycle: CycleFact } | { readonly kind: 'faults'; readonly faults: readonly FieldFault[] };

const MINUTE_MS = 60_000;
/** No plant filters longer without a backwash. Common practice. */
const LONGEST_MINUTES = 20_160;
/** Clocks and rounding: filtration may seem a little longer than the cycle. */
const TOLERANCE_MINUTES = 1;

/** Which signal says what is possible for a measure of a cycle. */
const MEASURES = {
  flow_m3h: 'filtrate_flow',
  feed_kpa: 'feed_pressure',
  filtrate_kpa: 'filtrate_pressure',
  concentrate_kpa: 'concentrate_pressure',
  tmp_kpa: 'tmp',
  tmp_start_kpa: 'tmp',
  tmp_end_kpa: 'tmp',
  temperature_c: 'temperature',
  cartridge_dp_kpa: 'cartridge_dp',
  feed_turbidity_ntu: 'feed_turbidity',
} as const satisfies Record<string, SignalCode>;

/**
 * A filtration cycle as a row reports it. One of its end and its minutes in filtration must be there; the other follows. A measure that no plant can show
 * refuses the row, since its neighbours come from the same source.
 */
export function readCycle({ values, faults: read }: FieldsRead, startedAtMs: number, doubtful: boolean, readTime: TimeReader): CycleRead {
  const faults: FieldFault[] = [...read];
  const fault = (column: string, value: string | number | null, message: string) =>
    faults.push({ column, value: value === null ? null : String(value), message });
  const number = (field: string) => {
    const value = values[field];
    return typeof value === 'number' ? value : null;
  };
  for (const [field, signal] of Object.entries(MEASURES)) {
    const value = number(field);
    const measured = value === null ? null : measuredValue(signal, value, SIGNALS[signal].unit);
    if (measured?.kind === 'impossible') fault(field, value, measured.reason);
  }
  const filtrateM3 = number('filtrate_m3');
  if (filtrateM3 !== null && !(filtrateM3 >= 0 && filtrateM3 <= 1e6)) fault('filtrate_m3', filtrateM3, 'is not possible for the filtrate of one cycle');

  const endedText = values.ended_at;
  const reported = number('filtration_minutes');
  const ended = endedText === undefined ? undefined : readTime(String(endedText));
  if (ended?.kind === 'bad-time') fault('ended_at', String(endedText), ended.reason);
  else if (endedText === undefined && reported === null) fault('filtration_minutes', null, 'neither the end nor the minutes in filtration are there');
  const timed = ended?.kind !== 'bad-time' && (ended !== undefined || reported !== null);
  const endedAtMs = endOf(ended, startedAtMs, reported);
  const wholeMinutes = (endedAtMs - startedAtMs) / MINUTE_MS;
  const filtrationMinutes = reported ?? wholeMinutes;
  if (timed && !(filtrationMinutes > 0 && filtrationMinutes <= LONGEST_MINUTES))
    fault('filtration_minutes', filtrationMinutes, 'is not between 0 and 20160 minutes');
  else if (timed && !(wholeMinutes > 0)) fault('ended_at', String(endedText), 'is not after the start');
  else if (timed && filtrationMinutes > wholeMinutes + TOLERANCE_MINUTES) fault('filtration_minutes', filtrationMinutes, 'is longer than from start to end');
  if (faults.length > 0) return { kind: 'faults', faults };
  return {
    kind: 'cycle',
    cycle: {
      startedAt: new Date(startedAtMs),
      endedAt: new Date(endedAtMs),
      filtrationMinutes,
      filtrateM3,
      flowM3h: number('flow_m3h'),
      feedKpa: number('feed_kpa'),
      filtrateKpa: number('filtrate_kpa'),
      concentrateKpa: number('concentrate_kpa'),
      tmpKpa: number('tmp_kpa'),
      tmpStartKpa: number('tmp_start_kpa'),
      tmpEndKpa: number('tmp_end_kpa'),
      temperatureC: number('temperature_c'),
      cartridgeDpKpa: number('cartridge_dp_kpa'),
      feedTurbidityNtu: number('feed_turbidity_ntu'),
      quality: doubtful ? QUALITY.doubtfulTime : QUALITY.good,
      byHand: false,
    },
  };
}

/** An end in the doubled hour is the first one that is late enough for the filtration. */
function endOf(ended: ReturnType<TimeReader> | undefined, startedAtMs: number, minutes: number | null): number {
  if (ended === undefined) return startedAtMs + Math.round((minutes ?? 0) * MINUTE_MS);
  if (ended.kind === 'bad-time') return startedAtMs;
  if (ended.kind === 'once') return ended.atMs;
  const earliest = startedAtMs + Math.max(1, ((minutes ?? 0) - TOLERANCE_MINUTES) * MINUTE_MS);
  return ended.firstMs >= earliest ? ended.firstMs : ended.secondMs;
}
