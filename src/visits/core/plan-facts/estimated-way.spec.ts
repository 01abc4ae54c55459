import { describe, expect, test } from '@jest/globals';
import { dayCosts } from './day-costs.js';
import { estimatedWay } from './estimated-way.js';

describe('an estimated way', () => {
  test('is 1.3 times the great circle: a degree of latitude is 111.195 km on a sphere of 6371.0088 km', () => {
    const { km, minutes } = estimatedWay({ latitude: 50, longitude: 8 }, { latitude: 51, longitude: 8 });
    expect(km / 1.3).toBeCloseTo(111.195, 2);
    expect(minutes).toBeCloseTo(3 + (10 / 35 + (km - 10) / 70) * 60, 6);
  });

  test('is as long there as back, and goes the short way across the line where days change', () => {
    const [one, two] = [
      { latitude: -17, longitude: 179.5 },
      { latitude: -17, longitude: -179.5 },
    ];
    expect(estimatedWay(one, two).km).toBeCloseTo(estimatedWay(two, one).km, 9);
    expect(estimatedWay(one, two).km).toBeLessThan(1.3 * 111.2);
  });
});

describe('what a day costs', () => {
  test('is nothing on some day, and no day before the earliest is open', () => {
    const costs = dayCosts({ earliestOn: '2026-12-03', bestOn: '2026-12-05', latestOn: '2026-12-06' }, '2026-12-01', 8);
    expect(costs).toEqual([Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, 12, 6, 0, 0, 90, 180]);
  });

  test('is infinite on all days where the earliest is after the plan', () => {
    expect(dayCosts({ earliestOn: '2027-01-01', bestOn: null, latestOn: null }, '2026-12-01', 2)).toEqual([Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY]);
  });
});
