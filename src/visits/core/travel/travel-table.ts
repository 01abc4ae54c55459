import { circleKm, minutesOfWay, type Position, type Roads, radians } from '../plan-facts/estimated-way.js';

/** Where the time of a way comes from. */
export const TRAVEL_SOURCES = ['estimated by distance', 'by road table', 'set by hand'] as const;
export type TravelSource = (typeof TRAVEL_SOURCES)[number];

/** A home or a site. */
export interface TravelPlace extends Position {
  readonly id: string;
}

export interface Way {
  readonly km: number;
  readonly minutes: number;
}

/** Roads of a named set of sites. */
export interface TravelRegion extends Roads {
  readonly siteIds: readonly string[];
}

/** What people know better than any table. */
export interface TravelOverride extends Way {
  readonly fromId: string;
  readonly toId: string;
  readonly bothWays: boolean;
}

/** What travel is reckoned from. */
export interface TravelKnown {
  /** Of places that are of no region */
  readonly usual: Roads;
  readonly regions: readonly TravelRegion[];
  readonly overrides: readonly TravelOverride[];
}

/** Ways between places, row by row: from the place of the row to that of the column. */
export interface TravelTable {
  readonly minutes: Float64Array;
  readonly km: Float64Array;
  /** Place in TRAVEL_SOURCES */
  readonly sources: Uint8Array;
}

/** The ways that a road table knows, row by row; null: a hole. */
export type RoadWays = readonly (Way | null)[];

/**
 * Ways between places: as set by hand, else by the road table, else estimated by distance. Of an estimate half is driven on the roads of the region where the way begins and
 * half on those where it ends; a place of no region, such as a home, takes the roads of the other end, and the usual ones where both are of none.
 *
 * @param roads null: no table was asked
 * @example travelTable([{ id: 'a', latitude: 0, longitude: 0 }, { id: 'b', latitude: 0, longitude: 0 }], { usual: { factor: 1.3, nearKmh: 35, farKmh: 70 }, regions: [], overrides: [{ fromId: 'a', toId: 'b', bothWays: false, km: 4, minutes: 9 }] }, null).minutes[1] // => 9
 */
export function travelTable(places: readonly TravelPlace[], { usual, regions, overrides }: TravelKnown, roads: RoadWays | null): TravelTable {
  const count = places.length;
  const table = { minutes: sharedFloats(count * count), km: sharedFloats(count * count), sources: new Uint8Array(count * count) };
  estimate(table, places, { usual, regions });
  const put = (at: number, { km, minutes }: Way, source: TravelSource) => {
    table.km[at] = km;
    table.minutes[at] = minutes;
    table.sources[at] = TRAVEL_SOURCES.indexOf(source);
  };
  for (const [at, road] of roads?.entries() ?? []) if (road !== null && Math.floor(at / count) !== at % count) put(at, road, 'by road table');
  const placeAt = new Map(places.map(({ id }, at) => [id, at]));
  // What is set for one direction wins over what is set for both.
  for (const override of overrides.toSorted((one, two) => Number(two.bothWays) - Number(one.bothWays))) {
    const [from, to] = [placeAt.get(override.fromId), placeAt.get(override.toId)];
    if (from === undefined || to === undefined || from === to) continue;
    put(from * count + to, override, 'set by hand');
    if (override.bothWays) put(to * count + from, override, 'set by hand');
  }
  return table;
}

/** Numbers that a thread which searches reads where they lie: there are millions of ways, and a copy for it takes longer than they took to reckon. */
const sharedFloats = (count: number): Float64Array => new Float64Array(new SharedArrayBuffer(count * Float64Array.BYTES_PER_ELEMENT));

/** Ways by distance, which are the same in both directions. */
function estimate({ minutes, km }: TravelTable, places: readonly TravelPlace[], { usual, regions }: Pick<TravelKnown, 'usual' | 'regions'>): void {
  const count = places.length;
  const regionOf = new Map(regions.flatMap((region) => region.siteIds.map((id) => [id, region] as const)));
  const roadsOf = places.map(({ id }) => regionOf.get(id));
  const latitudes = Float64Array.from(places, ({ latitude }) => latitude);
  const longitudes = Float64Array.from(places, ({ longitude }) => longitude);
  const cosines = latitudes.map((latitude) => Math.cos(radians(latitude)));
  const pair = (from: number, to: number) => {
    const north = radians((latitudes[to] as number) - (latitudes[from] as number));
    const east = radians((longitudes[to] as number) - (longitudes[from] as number));
    const circle = circleKm(north, east, (cosines[from] as number) * (cosines[to] as number));
    const first = roadsOf[from] ?? roadsOf[to] ?? usual;
    const second = roadsOf[to] ?? roadsOf[from] ?? usual;
    let way = circle * first.factor;
    let time = minutesOfWay(way, first);
    if (first !== second) {
      time = (time + minutesOfWay(circle * second.factor, second)) / 2;
      way = (way + circle * second.factor) / 2;
    }
    km[from * count + to] = km[to * count + from] = way;
    minutes[from * count + to] = minutes[to * count + from] = time;
  };
  // Square by square, so that what is written to the rows of the other direction lies close together.
  for (let top = 0; top < count; top += SQUARE)
    for (let left = top; left < count; left += SQUARE)
      for (let from = top; from < Math.min(top + SQUARE, count); from += 1)
        for (let to = Math.max(left, from + 1); to < Math.min(left + SQUARE, count); to += 1) pair(from, to);
}

const SQUARE = 64;
