import type { LifePoint } from './life-at.js';
import type { StateSample } from './run-hours-from-states.js';

const HOUR_MS = 3_600_000;

/**
 * Run hours and starts of a machine as they grew, from samples of on or off: the running sums behind `runHoursFromStates`, one point where the machine
 * stops and one at the end, so that the life at any moment can be read. A gap longer than the longest counts nothing. Samples in order of time.
 *
 * Source: sample and hold (common practice).
 *
 * @example lifeByStates([{ at: new Date('2025-01-01T00:00:00Z'), on: true }, { at: new Date('2025-01-01T02:00:00Z'), on: false }], 180).hours[1].life // => 2
 */
export function lifeByStates(samples: readonly StateSample[], maxGapMinutes: number): { hours: LifePoint[]; starts: LifePoint[] } {
  const hours: LifePoint[] = [];
  const starts: LifePoint[] = [];
  let onMs = 0;
  let started = 0;
  for (const [index, sample] of samples.entries()) {
    const before = samples[index - 1];
    if (before !== undefined) {
      const heldMs = sample.at.getTime() - before.at.getTime();
      if (before.on && heldMs <= maxGapMinutes * 60_000) onMs += heldMs;
      if (sample.on && !before.on) started += 1;
    }
    const edge = before === undefined || sample.on !== before.on || index === samples.length - 1;
    if (!edge) continue;
    hours.push({ at: sample.at, life: onMs / HOUR_MS });
    starts.push({ at: sample.at, life: started });
  }
  return { hours, starts };
}
