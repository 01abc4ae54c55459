import { leastTestPressureKpa } from './least-test-pressure.js';
import type { ProofFault } from './test-faults.js';

/** Warm water, in which the least pressure is the lowest that a test can have. */
const WARM_C = 30;

/**
 * What an integrity setup contradicts itself in: a highest test pressure at which no test could open a pore of 3 µm, so that none would ever count.
 *
 * Source: as `leastTestPressureKpa`.
 *
 * @example setupFaults({ poreShape: 1, contactAngleDeg: 0, backPressureKpa: 0, highestTestKpa: 200 }) // => []
 */
export function setupFaults(setup: {
  readonly poreShape: number;
  readonly contactAngleDeg: number;
  readonly backPressureKpa: number;
  readonly highestTestKpa: number | null;
}): ProofFault[] {
  const { highestTestKpa } = setup;
  const least = leastTestPressureKpa({ ...setup, temperatureC: WARM_C });
  if (highestTestKpa === null || highestTestKpa >= least) return [];
  const message = `${highestTestKpa} kPa is below the ${least.toFixed(1)} kPa that a test needs even in warm water, so none would count: check pore shape, contact angle and back pressure`;
  return [{ field: 'highestTestKpa', message }];
}
