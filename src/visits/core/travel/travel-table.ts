import { estimatedWay, type Position, type Roads } from '../plan-facts/estimated-way.js';

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
  const table = { minutes: new Float64Array(count * count), km: new Float64Array(count * count), sources: new Uint8Array(count * count) };
  const regionOf = new Map(regions.flatMap((region) => region.siteIds.map((id) => [id, region] as const)));
  const put = (at: number, { km, minutes }: Way, source: TravelSource) => {
    table.km[at] = km;
    table.minutes[at] = minutes;
    table.sources[at] = TRAVEL_SOURCES.indexOf(source);
  };
  for (const [from, one] of places.entries()) {
    for (const [to, two] of places.entries()) {
      const road = roads?.[from * count + to];
      if (from === to) continue;
      if (road !== null && road !== undefined) put(from * count + to, road, 'by road table');
      else put(from * count + to, byDistance(one, two, regionOf.get(one.id), regionOf.get(two.id), usual), 'estimated by distance');
    }
  }
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

function byDistance(one: Position, two: Position, first: Roads | undefined, second: Roads | undefined, usual: Roads): Way {
  const [from, to] = [first ?? second ?? usual, second ?? first ?? usual];
  const way = estimatedWay(one, two, from);
  if (from === to) return way;
  const other = estimatedWay(one, two, to);
  return { km: (way.km + other.km) / 2, minutes: (way.minutes + other.minutes) / 2 };
}
