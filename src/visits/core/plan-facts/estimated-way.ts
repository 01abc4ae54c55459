export interface Position {
  readonly latitude: number;
  readonly longitude: number;
}

const EARTH_KM = 6371.0088;
/** Roads are longer than the straight line: common practice where nothing else is known. */
const ROAD_FACTOR = 1.3;
/** To get going and to park, then slowly near both ends, faster in between: common practice. */
const FIXED_MINUTES = 3;
const NEAR_KM = 10;
const NEAR_KMH = 35;
const FAR_KMH = 70;

/**
 * Way by road between two positions, estimated: km = 1.3 times the great circle; minutes = 3 + 60 (the first 10 km at 35 km/h + the rest at 70 km/h). Nothing between
 * equal positions.
 *
 * Source: haversine formula with the mean radius of the Earth (IUGG, 6371.0088 km); factor and speeds are common practice.
 *
 * @example estimatedWay({ latitude: 50, longitude: 8 }, { latitude: 50, longitude: 8 }) // => { "km": 0, "minutes": 0 }
 */
export function estimatedWay(one: Position, two: Position): { km: number; minutes: number } {
  const radians = (degrees: number) => (degrees * Math.PI) / 180;
  const half = (from: number, to: number) => Math.sin(radians(to - from) / 2) ** 2;
  const chord = half(one.latitude, two.latitude) + Math.cos(radians(one.latitude)) * Math.cos(radians(two.latitude)) * half(one.longitude, two.longitude);
  const km = 2 * EARTH_KM * Math.asin(Math.min(1, Math.sqrt(chord))) * ROAD_FACTOR;
  if (km === 0) return { km: 0, minutes: 0 };
  return { km, minutes: FIXED_MINUTES + 60 * (Math.min(km, NEAR_KM) / NEAR_KMH + Math.max(0, km - NEAR_KM) / FAR_KMH) };
}
