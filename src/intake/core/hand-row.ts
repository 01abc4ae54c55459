import type { SignalCode } from '../../shared/signals.js';

/** What a person read from the gauges of a skid at one moment. */
export interface HandRow {
  readonly at: Date;
  readonly minutesSinceBackwash: number | null;
  /** In the stored unit of the signal, with half the smallest division of its gauge */
  readonly values: Partial<Record<SignalCode, { readonly value: number; readonly error: number | null }>>;
  /** The hour meter of the feed pump, where it was read at the same time */
  readonly feedPumpHours: number | null;
}
