import type { ShownPlan } from '../shown-plan.js';
import { staysOf, type Tour } from './tour-geometry.js';

export interface Place {
  readonly key: string;
  readonly name: string;
  readonly kind: 'home' | 'site';
  readonly latitude: number;
  readonly longitude: number;
}

export interface PlacePoint extends Place {
  readonly x: number;
  readonly y: number;
  readonly labelY: number;
  /** On which side of the point its name is written */
  readonly side: 'right' | 'left';
}

const EDGE = 20;
const LABEL_PX = 15;
/** About the width of a letter */
const LETTER_PX = 6.5;
const homeKey = (personId: string): string => `home ${personId}`;

/** Where the tours begin, and the sites that they go to, as far as it is known where those are. */
export function placesOf({ people, sites, tours }: Pick<ShownPlan, 'people' | 'sites' | 'tours'>): Place[] {
  const homes = people.filter(({ personId }) => tours.some((tour) => tour.personId === personId));
  const gone = new Set(tours.flatMap(({ stops }) => stops.map(({ siteId }) => siteId)));
  return [
    ...homes.flatMap(({ personId, name, latitude, longitude }) =>
      latitude === null || longitude === null ? [] : [{ key: homeKey(personId), name, kind: 'home' as const, latitude, longitude }],
    ),
    ...sites.flatMap(({ siteId, name, latitude, longitude }) =>
      latitude === null || longitude === null || !gone.has(siteId) ? [] : [{ key: siteId, name, kind: 'site' as const, latitude, longitude }],
    ),
  ];
}

/** Keys of the places of a tour in their order: from home or where the night before was spent, to home or where the night is spent. */
export function wayOf(tour: Tour, places: readonly Place[]): string[] {
  const near = (name: string | null) => places.find((place) => (name === null ? place.key === homeKey(tour.personId) : place.name === name))?.key;
  const keys = [near(tour.startsNear), ...staysOf(tour).map(({ siteId }) => siteId), near(tour.endsNear)];
  return keys.filter((key, at): key is string => key !== undefined && key !== keys[at - 1] && places.some((place) => place.key === key));
}

/**
 * Places on a drawing of a width, as high as they need but at most so high. A degree of longitude is as much shorter than one of latitude as it is at the middle of them
 * all, so that the drawing keeps the shape of the land. Names that would lie on another are written further down.
 */
export function layOut(places: readonly Place[], width: number, mostHeight: number): { readonly height: number; readonly points: readonly PlacePoint[] } {
  const [south, north] = rangeOf(places.map(({ latitude }) => latitude));
  const [west, east] = rangeOf(places.map(({ longitude }) => longitude));
  const narrow = Math.cos((((south + north) / 2) * Math.PI) / 180);
  const [across, up] = [(east - west) * narrow, north - south];
  const room = [Math.max(1, width - 2 * EDGE), Math.max(1, mostHeight - 2 * EDGE)] as const;
  const scale = Math.min(across > 0 ? room[0] / across : Number.POSITIVE_INFINITY, up > 0 ? room[1] / up : Number.POSITIVE_INFINITY);
  const perDegree = Number.isFinite(scale) ? scale : 0;
  const left = (width - across * perDegree) / 2;
  const height = Math.ceil(up * perDegree + 2 * EDGE);
  const points: PlacePoint[] = [];
  for (const place of places.toSorted((one, two) => two.latitude - one.latitude)) {
    const x = left + (place.longitude - west) * narrow * perDegree;
    const y = EDGE + (north - place.latitude) * perDegree;
    const side = x > width / 2 ? 'left' : 'right';
    points.push({ ...place, x, y, side, labelY: freeY({ ...place, x, y, side, labelY: y }, points) });
  }
  return { height: Math.max(height, ...points.map(({ labelY }) => labelY + EDGE)), points };
}

function rangeOf(values: readonly number[]): [number, number] {
  return values.length === 0 ? [0, 0] : [Math.min(...values), Math.max(...values)];
}

function freeY(point: PlacePoint, taken: readonly PlacePoint[]): number {
  const span = ({ x, name, side }: PlacePoint) => (side === 'right' ? [x, x + name.length * LETTER_PX] : [x - name.length * LETTER_PX, x]) as [number, number];
  const [from, until] = span(point);
  const beside = taken.filter((other) => span(other)[0] < until && span(other)[1] > from).toSorted((one, two) => one.labelY - two.labelY);
  return beside.reduce((y, other) => (Math.abs(other.labelY - y) < LABEL_PX ? other.labelY + LABEL_PX : y), point.y);
}
