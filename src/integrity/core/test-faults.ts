import type { DecayTest } from './judge-test.js';

/** A field at fault, and how to mend it. */
export interface ProofFault {
  readonly field: string;
  readonly message: string;
}

/** What a value can be. The upper ends catch wrong units: common practice. */
const RANGES: Record<keyof DecayTest, readonly [low: number, high: number, what: string]> = {
  startKpa: [1, 1000, 'kPa'],
  endKpa: [0, 1000, 'kPa'],
  minutes: [0.5, 240, 'min'],
  settledMinutes: [0, 240, 'min'],
  temperatureC: [0, 60, '°C'],
};

/**
 * Values of a pressure-decay test that cannot be so. Whether a test that can be so also counts is for `judgeTest`.
 *
 * Source: common practice.
 *
 * @example testFaults({ startKpa: 120, endKpa: 115, minutes: 0, settledMinutes: 5, temperatureC: 20 }) // => [{ "field": "minutes", "message": "0 is not possible: give 0.5 to 240 min" }]
 */
export function testFaults(test: DecayTest): ProofFault[] {
  return (Object.keys(RANGES) as (keyof DecayTest)[]).flatMap((field) => {
    const [low, high, what] = RANGES[field];
    const value = test[field];
    return value >= low && value <= high ? [] : [{ field, message: `${value} is not possible: give ${low} to ${high} ${what}` }];
  });
}
