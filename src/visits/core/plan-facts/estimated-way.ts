export interface Position {
  readonly latitude: number;
  readonly longitude: number;
}

/** What roads are like: how much longer than the straight line, and how fast near both ends and in between. */
export interface Roads {
  readonly factor: number;
  readonly nearKmh: number;
  readonly farKmh: number;
}

const EARTH_KM = 6371.0088;
/** Common practice where nothing else is known. */
export const USUAL_ROADS: Roads = { factor: 1.3, nearKmh: 35, farKmh: 70 };
/** To get going and to park: common practice. */
export const FIXED_MINUTES = 3;
const NEAR_KM = 10;

/**
 * Great circle between two positions in km.
 *
 * Source: haversine formula with the mean radius of the Earth (IUGG, 6371.0088 km).
 *
 * @example greatCircleKm({ latitude: 50, longitude: 8 }, { latitude: 51, longitude: 8 }) // => 111.1950802
 */
export function greatCircleKm(one: Position, two: Position): number {
  return circleKm(
    radians(two.latitude - one.latitude),
    radians(two.longitude - one.longitude),
    Math.cos(radians(one.latitude)) * Math.cos(radians(two.latitude)),
  );
}

export const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** The same from differences in radians, and the product of the cosines of both latitudes: what belongs to one position alone need not be reckoned for every pair. */
export function circleKm(north: number, east: number, cosines: number): number {
  const [halfNorth, halfEast] = [Math.sin(north / 2), Math.sin(east / 2)];
  const chord = halfNorth * halfNorth + cosines * (halfEast * halfEast);
  return 2 * EARTH_KM * Math.asin(Math.min(1, Math.sqrt(chord)));
}

/**
 * Minutes on the road: 3 + 60 (the first 10 km at the speed near both ends + the rest at the speed in between); 0 for no way.
 *
 * @example minutesOfWay(45, { factor: 1.3, nearKmh: 40, farKmh: 70 }) // => 48
 * @example minutesOfWay(0, { factor: 1.3, nearKmh: 40, farKmh: 70 }) // => 0
 */
export function minutesOfWay(km: number, { nearKmh, farKmh }: Roads): number {
  return km === 0 ? 0 : FIXED_MINUTES + 60 * (Math.min(km, NEAR_KM) / nearKmh + Math.max(0, km - NEAR_KM) / farKmh);
}

/**
 * Way by road between two positions, estimated: km = factor times the great circle, 1.3 where nothing else is known; minutes of that way. Nothing between equal positions.
 *
 * Source: factor and speeds are common practice.
 *
 * @example estimatedWay({ latitude: 50, longitude: 8 }, { latitude: 50, longitude: 8 }) // => { "km": 0, "minutes": 0 }
 */
export function estimatedWay(one: Position, two: Position, roads: Roads = USUAL_ROADS): { km: number; minutes: number } {
  const km = greatCircleKm(one, two) * roads.factor;
  return { km, minutes: minutesOfWay(km, roads) };
}
