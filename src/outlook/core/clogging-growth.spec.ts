import { describe, expect, test } from '@jest/globals';
import { growthOf, lnLikelihood } from './clogging-growth.js';
import { metByFurtherLoad } from './life-posterior.js';

const LIMIT = 150;
const CLEAN = 30;

/** A pressure drop that climbs as a power of the load and meets the limit at `life`. */
function record(life: number, exponent: number, upTo: number, count = 60) {
  return Array.from({ length: count }, (_, i) => {
    const load = (upTo * (i + 1)) / count;
    return { load, value: CLEAN + (LIMIT - CLEAN) * (load / life) ** exponent };
  });
}

/** Further load at which even odds are reached. */
function middle(load: number, points: ReturnType<typeof record>): number {
  const met = metByFurtherLoad(load, null, growthOf(points, LIMIT));
  let further = 0;
  while (met(further) < 0.5) further += load / 1000;
  return further;
}

describe('the growth of a clogging part', () => {
  test('finds the exponent of a steep curve near the limit', () => {
    const growth = growthOf(record(10_000, 6, 9_500), LIMIT);
    expect(Math.exp(growth?.lnExponent ?? NaN)).toBeGreaterThan(4.5);
    expect(Math.exp(growth?.lnExponent ?? NaN)).toBeLessThan(6.5);
    expect(growth?.clean).toBeCloseTo(CLEAN, 0);
  });

  test('believes its own growth the less, the lower the level', () => {
    const low = growthOf(record(10_000, 3, 4_000), LIMIT);
    const high = growthOf(record(10_000, 3, 9_000), LIMIT);
    expect(low?.lnExponentSd ?? NaN).toBeGreaterThan(1.5 * (high?.lnExponentSd ?? NaN));
  });

  test('is none near clean, with few points, and where the clean value is at the limit', () => {
    expect(growthOf(record(10_000, 3, 2_000), LIMIT)).toBeNull();
    expect(growthOf(record(10_000, 3, 9_000, 4), LIMIT)).toBeNull();
    expect(growthOf(record(10_000, 3, 9_000), CLEAN)).toBeNull();
    expect(
      growthOf(
        Array.from({ length: 30 }, (_, i) => ({ load: i * 100, value: 40 })),
        LIMIT,
      ),
    ).toBeNull();
  });

  test('favours the life that the curve has, and forgives a shorter one sooner than a longer one', () => {
    const growth = growthOf(record(10_000, 3, 8_500), LIMIT);
    if (growth === null) throw new Error('the record rises');
    const best = Math.max(...Array.from({ length: 200 }, (_, i) => 8_600 + i * 50).map((life) => lnLikelihood(growth, life)));
    expect(lnLikelihood(growth, 10_000)).toBeGreaterThan(best - 0.1);
    expect(lnLikelihood(growth, 9_000)).toBeGreaterThan(lnLikelihood(growth, 14_000));
  });

  test('meets the limit near the true life late in life, where a straight line is late by far', () => {
    const points = record(10_000, 5, 9_000);
    const slope = ((points.at(-1)?.value ?? NaN) - CLEAN) / 9_000;
    const byLine = (LIMIT - (points.at(-1)?.value ?? NaN)) / slope;
    const ours = middle(9_000, points);
    expect(Math.abs(ours - 1_000)).toBeLessThan(400);
    expect(byLine).toBeGreaterThan(3_000);
  });

  test('does not depend on the units of value and load', () => {
    const points = record(10_000, 4, 8_000);
    const growth = growthOf(points, LIMIT);
    const scaled = growthOf(
      points.map(({ load, value }) => ({ load: load * 264.172, value: value / 6.894757 })),
      LIMIT / 6.894757,
    );
    expect(scaled?.level).toBeCloseTo(growth?.level ?? NaN, 9);
    expect(scaled?.lnExponent).toBeCloseTo(growth?.lnExponent ?? NaN, 9);
  });
});
