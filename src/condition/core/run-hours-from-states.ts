export interface RunRecord {
  readonly runHours: number;
  readonly starts: number;
  /** Time of the span about which no sample says anything: neither running nor standing */
  readonly unknownHours: number;
}

export interface StateSample {
  readonly at: Date;
  readonly on: boolean;
}

const HOUR_MS = 3_600_000;

/**
 * Run hours and starts of a machine from samples of on or off, for machines without an hour meter.
 *
 * A sample holds until the next one, unless that comes later than the longest gap: then the time between them is unknown and does not count as running. The
 * span is cut exactly at its edges, so that the hours of two days add up to those of both. A start is a sample of on that follows one of off, across a gap
 * too, since the machine must have been started in it; after a gap between two samples of on nothing is known and none is counted. A start belongs to the
 * span that holds its sample; the end of the span belongs to the next one. Samples in order of time.
 *
 * Source: sample and hold (common practice).
 *
 * @example runHoursFromStates([{ at: new Date('2025-01-01T00:00:00Z'), on: false }, { at: new Date('2025-01-01T01:00:00Z'), on: true }, { at: new Date('2025-01-01T03:30:00Z'), on: false }], { from: new Date('2025-01-01T00:00:00Z'), to: new Date('2025-01-01T03:30:00Z') }, 180) // => { "runHours": 2.5, "starts": 1, "unknownHours": 0 }
 */
export function runHoursFromStates(samples: readonly StateSample[], span: { from: Date; to: Date }, maxGapMinutes: number): RunRecord {
  const fromMs = span.from.getTime();
  const toMs = span.to.getTime();
  let onMs = 0;
  let knownMs = 0;
  let starts = 0;
  for (const [index, sample] of samples.entries()) {
    const atMs = sample.at.getTime();
    const next = samples[index + 1];
    if (sample.on && samples[index - 1]?.on === false && atMs >= fromMs && atMs < toMs) starts += 1;
    if (!next || next.at.getTime() - atMs > maxGapMinutes * 60_000) continue;
    const heldMs = Math.max(0, Math.min(next.at.getTime(), toMs) - Math.max(atMs, fromMs));
    knownMs += heldMs;
    if (sample.on) onMs += heldMs;
  }
  return { runHours: onMs / HOUR_MS, starts, unknownHours: Math.max(0, toMs - fromMs - knownMs) / HOUR_MS };
}
