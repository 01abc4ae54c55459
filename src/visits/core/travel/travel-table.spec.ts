import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { estimatedWay, USUAL_ROADS } from '../plan-facts/estimated-way.js';
import { TRAVEL_SOURCES, type TravelOverride, type TravelRegion, travelTable } from './travel-table.js';

const HOME = { id: 'home', latitude: 50, longitude: 8 };
const HILL = { id: 'hill', latitude: 50.4, longitude: 8 };
const TOWN = { id: 'town', latitude: 50, longitude: 8.5 };
const PLACES = [HOME, HILL, TOWN];
const HILLS: TravelRegion = { siteIds: ['hill'], factor: 1.6, nearKmh: 30, farKmh: 50 };
const TOWNS: TravelRegion = { siteIds: ['town'], factor: 1.2, nearKmh: 25, farKmh: 60 };
const [HOME_TO_HILL, HILL_TO_HOME, HILL_TO_TOWN] = [1, 3, 5];
const sourceOf = ({ sources }: { sources: Uint8Array }, at: number) => TRAVEL_SOURCES[sources[at] ?? 0];

describe('ways by distance', () => {
  test('take the usual roads where no place is of a region', () => {
    const { km, minutes } = travelTable(PLACES, { usual: USUAL_ROADS, regions: [], overrides: [] }, null);
    expect({ km: km[HOME_TO_HILL], minutes: minutes[HOME_TO_HILL] }).toEqual(estimatedWay(HOME, HILL));
  });

  test('from a home take the roads of the site', () => {
    const table = travelTable(PLACES, { usual: USUAL_ROADS, regions: [HILLS], overrides: [] }, null);
    expect(table.minutes[HOME_TO_HILL]).toBe(estimatedWay(HOME, HILL, HILLS).minutes);
    expect(table.minutes[HILL_TO_HOME]).toBe(table.minutes[HOME_TO_HILL]);
  });

  test('from one region to another are half of one, half of the other', () => {
    const { km } = travelTable(PLACES, { usual: USUAL_ROADS, regions: [HILLS, TOWNS], overrides: [] }, null);
    expect((km[HILL_TO_TOWN] ?? 0) / estimatedWay(HILL, TOWN, { ...USUAL_ROADS, factor: 1 }).km).toBeCloseTo(1.4, 9);
  });
});

describe('every way says where it comes from', () => {
  const withHand = (...overrides: TravelOverride[]) => ({ usual: USUAL_ROADS, regions: [], overrides });

  test('the road table where it knows the way, the distance where it has a hole', () => {
    const roads = PLACES.flatMap((_, from) => PLACES.map((_, to) => (from === 0 && to === 1 ? { km: 61, minutes: 52 } : null)));
    const table = travelTable(PLACES, withHand(), roads);
    expect([table.minutes[HOME_TO_HILL], sourceOf(table, HOME_TO_HILL)]).toEqual([52, 'by road table']);
    expect([table.minutes[HILL_TO_HOME], sourceOf(table, HILL_TO_HOME)]).toEqual([estimatedWay(HILL, HOME).minutes, 'estimated by distance']);
  });

  test('what is set by hand wins, in both directions or in one', () => {
    const ferry: TravelOverride = { fromId: 'home', toId: 'hill', bothWays: true, km: 40, minutes: 95 };
    const roads = PLACES.flatMap(() => PLACES.map(() => ({ km: 1, minutes: 1 })));
    const both = travelTable(PLACES, withHand(ferry), roads);
    expect([both.minutes[HOME_TO_HILL], both.minutes[HILL_TO_HOME], sourceOf(both, HILL_TO_HOME)]).toEqual([95, 95, 'set by hand']);
    const one = travelTable(PLACES, withHand({ ...ferry, bothWays: false }), roads);
    expect([one.minutes[HOME_TO_HILL], one.minutes[HILL_TO_HOME]]).toEqual([95, 1]);
  });

  test('what is set for one direction wins over what is set for both, in whatever order they stand', () => {
    const both: TravelOverride = { fromId: 'hill', toId: 'home', bothWays: true, km: 40, minutes: 95 };
    const down: TravelOverride = { fromId: 'hill', toId: 'home', bothWays: false, km: 40, minutes: 70 };
    for (const overrides of [
      [both, down],
      [down, both],
    ]) {
      const { minutes } = travelTable(PLACES, withHand(...overrides), null);
      expect([minutes[HILL_TO_HOME], minutes[HOME_TO_HILL]]).toEqual([70, 95]);
    }
  });

  test('to stay takes no time, and no way is less than the straight line', () => {
    const position = fc.record({ latitude: fc.double({ min: -80, max: 80, noNaN: true }), longitude: fc.double({ min: -180, max: 180, noNaN: true }) });
    fc.assert(
      fc.property(fc.array(position, { minLength: 1, maxLength: 5 }), (positions) => {
        const places = positions.map((each, at) => ({ ...each, id: String(at) }));
        const { km, minutes } = travelTable(places, { usual: USUAL_ROADS, regions: [HILLS], overrides: [] }, null);
        for (const [from, one] of places.entries()) {
          expect([km[from * places.length + from], minutes[from * places.length + from]]).toEqual([0, 0]);
          for (const [to, two] of places.entries())
            expect((km[from * places.length + to] ?? 0) + 1e-9).toBeGreaterThanOrEqual(estimatedWay(one, two, { ...USUAL_ROADS, factor: 1 }).km);
        }
      }),
      { numRuns: 30 },
    );
  });
});
