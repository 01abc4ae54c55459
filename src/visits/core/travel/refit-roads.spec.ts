import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { minutesOfWay, type Roads, USUAL_ROADS } from '../plan-facts/estimated-way.js';
import { type RecordedTrip, refitRoads } from './refit-roads.js';

const HILLS: Roads = { factor: 1.6, nearKmh: 28, farKmh: 56 };
const driven = (circleKm: number, roads: Roads, noted = true): RecordedTrip => ({
  circleKm,
  km: noted ? circleKm * roads.factor : null,
  minutes: minutesOfWay(circleKm * roads.factor, roads),
});
const LENGTHS = [3, 8, 12, 20, 25, 40, 60, 75, 90, 120];

describe('roads fitted to recorded trips', () => {
  test('are those that were driven, where the km were noted', () => {
    const found = refitRoads(
      LENGTHS.map((km) => driven(km, HILLS)),
      USUAL_ROADS,
    );
    if (found.kind !== 'roads') throw new Error('too few');
    expect([found.trips, found.tripsWithKm]).toEqual([10, 10]);
    expect(found.roads.factor).toBeCloseTo(1.6, 9);
    expect([found.roads.nearKmh, found.roads.farKmh].map((kmh) => Number(kmh.toFixed(6)))).toEqual([28, 56]);
    expect(found.ratio).toBeGreaterThan(1);
    // Each is estimated exactly by what the others say.
    expect(found.offMinutes.fitted).toBeCloseTo(0, 6);
    expect(found.offMinutes.now).toBeGreaterThan(5);
  });

  test('are not said to fit better where trips have nothing in common', () => {
    const found = refitRoads(
      LENGTHS.map((km, at) => driven(km, at % 2 === 0 ? HILLS : USUAL_ROADS, false)),
      USUAL_ROADS,
    );
    if (found.kind !== 'roads') throw new Error('too few');
    expect(found.offMinutes.fitted).toBeGreaterThan(0.8 * found.offMinutes.now);
  });

  test('keep their factor, and the times come out right all the same, where they were not', () => {
    const found = refitRoads(
      LENGTHS.map((km) => driven(km, { ...USUAL_ROADS, nearKmh: 28, farKmh: 56 }, false)),
      USUAL_ROADS,
    );
    expect(found).toMatchObject({ kind: 'roads', tripsWithKm: 0, roads: { factor: 1.3 } });
    if (found.kind === 'roads') expect(found.roads.farKmh).toBeCloseTo(56, 6);
  });

  test('are not moved by a few trips with a long stop', () => {
    const trips = LENGTHS.map((km, at) => (at < 4 ? { ...driven(km, HILLS), minutes: 400 } : driven(km, HILLS)));
    const found = refitRoads(trips, USUAL_ROADS);
    if (found.kind === 'roads') expect(found.roads.farKmh).toBeCloseTo(56, 6);
    expect(found.kind).toBe('roads');
  });

  test('are not said from seven trips, nor from short ones', () => {
    const few = LENGTHS.slice(0, 7).map((km) => driven(km, HILLS));
    expect(refitRoads(few, USUAL_ROADS)).toEqual({ kind: 'too-little-data', have: 7, need: 8 });
    expect(refitRoads([...few, driven(0.5, HILLS), { circleKm: 30, km: 40, minutes: 2 }], USUAL_ROADS)).toMatchObject({ have: 7 });
  });

  test('stay between what roads can be, whatever was noted', () => {
    const trip = fc.record({
      circleKm: fc.double({ min: 2, max: 500, noNaN: true }),
      minutes: fc.double({ min: 4, max: 3000, noNaN: true }),
      km: fc.option(fc.double({ min: 0, max: 5000, noNaN: true }), { nil: null }),
    });
    fc.assert(
      fc.property(fc.array(trip, { minLength: 8, maxLength: 20 }), (trips) => {
        const found = refitRoads(trips, USUAL_ROADS);
        if (found.kind !== 'roads') return;
        const { factor, nearKmh, farKmh } = found.roads;
        expect(factor).toBeGreaterThanOrEqual(1);
        for (const kmh of [nearKmh, farKmh]) expect(kmh >= 1 && kmh <= 200).toBe(true);
      }),
      { numRuns: 50 },
    );
  });
});
