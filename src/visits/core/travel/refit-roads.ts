import { median } from 'd3-array';
import { FIXED_MINUTES, minutesOfWay, type Roads } from '../plan-facts/estimated-way.js';

/** A way that somebody drove. */
export interface RecordedTrip {
  readonly circleKm: number;
  readonly minutes: number;
  /** By the odometer; null: not noted */
  readonly km: number | null;
}

/** What recorded trips say of roads: a suggestion, which changes nothing. */
export type RefittedRoads =
  | {
      readonly kind: 'roads';
      readonly trips: number;
      /** Of which the km were noted */
      readonly tripsWithKm: number;
      /** Median of the minutes driven over those estimated, by the present roads */
      readonly ratio: number;
      readonly roads: Roads;
      /** How far estimates were off, by the present roads and by fitted ones: the median over the trips */
      readonly offMinutes: { readonly now: number; readonly fitted: number };
    }
  | { readonly kind: 'too-little-data'; readonly have: number; readonly need: number };

const NEED = 8;
const PARTS = 5;
/** Shorter ways are mostly parking. */
const SHORTEST_KM = 2;
const [LEAST_FACTOR, MOST_FACTOR] = [1, 5];
const [LEAST_KMH, MOST_KMH] = [1, 200];

/**
 * Factor and speeds that recorded trips of a region ask for. Factor = median of km / great circle, over the trips whose km were noted, where there are 8 of them; else it
 * stays. Both speeds are divided by the median of (minutes - 3) / (minutes of the way at the present speeds - 3), the way being the km noted, else great circle times factor.
 * Medians, so that a stop for lunch on half of the trips but one changes nothing. Trips under 2 km of great circle, or of 3 minutes and less, say nothing and are left out;
 * km under the great circle count as not noted.
 *
 * How far off estimates are with fitted roads is judged of each trip by roads fitted to others: trips are dealt into 5 parts, and each part is estimated by what the other 4 say.
 *
 * Source: a median of ratios as a robust fit, and judging a fit by what it has not seen (cross-validation); that 8 trips are enough, and 5 parts, is common practice.
 *
 * @example refitRoads([{ circleKm: 20, minutes: 40, km: null }], { factor: 1.3, nearKmh: 35, farKmh: 70 }) // => { "kind": "too-little-data", "have": 1, "need": 8 }
 */
export function refitRoads(trips: readonly RecordedTrip[], roads: Roads): RefittedRoads {
  const told = trips
    .filter(({ circleKm, minutes }) => circleKm >= SHORTEST_KM && minutes > FIXED_MINUTES)
    .map((trip) => (trip.km === null || trip.km >= trip.circleKm ? trip : { ...trip, km: null }));
  if (told.length < NEED) return { kind: 'too-little-data', have: told.length, need: NEED };
  const tripsWithKm = told.filter(({ km }) => km !== null).length;
  const fit = (some: readonly RecordedTrip[]) => fitted(some, roads, tripsWithKm >= NEED);
  const parts = Array.from({ length: PARTS }, (_, part) => fit(told.filter((_trip, at) => at % PARTS !== part)));
  const offMinutes = {
    now: median(told, (trip) => offBy(trip, roads)) ?? 0,
    fitted: median(told, (trip, at) => offBy(trip, parts[at % PARTS] ?? roads)) ?? 0,
  };
  const ratio = median(told, (trip) => trip.minutes / minutesOfWay(trip.circleKm * roads.factor, roads)) ?? 1;
  return { kind: 'roads', trips: told.length, tripsWithKm, ratio, roads: fit(told), offMinutes };
}

function fitted(trips: readonly RecordedTrip[], roads: Roads, withFactor: boolean): Roads {
  const factors = trips.flatMap(({ km, circleKm }) => (km === null ? [] : [km / circleKm]));
  const factor = withFactor ? within(median(factors) ?? roads.factor, LEAST_FACTOR, MOST_FACTOR) : roads.factor;
  const estimated = ({ km, circleKm }: RecordedTrip) => minutesOfWay(km ?? circleKm * factor, roads);
  const slower = median(trips, (trip) => (trip.minutes - FIXED_MINUTES) / (estimated(trip) - FIXED_MINUTES)) ?? 1;
  const [nearKmh, farKmh] = [within(roads.nearKmh / slower, LEAST_KMH, MOST_KMH), within(roads.farKmh / slower, LEAST_KMH, MOST_KMH)];
  return { factor, nearKmh, farKmh };
}

/** As a plan would have reckoned with it: from the great circle, not from the odometer. */
const offBy = ({ minutes, circleKm }: RecordedTrip, roads: Roads) => Math.abs(minutes - minutesOfWay(circleKm * roads.factor, roads));

const within = (value: number, least: number, most: number) => Math.min(most, Math.max(least, value));
