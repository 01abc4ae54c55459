import type { TravelKnown, TravelPlace } from '../core/travel/travel-table.js';
import type { ProvidedTravel } from './travel-provider.js';

/** Where a plan goes: a home without extra minutes, or a site. */
export interface PlannedPlace extends TravelPlace {
  readonly extraMinutes: number;
}

/**
 * The last ways that a plan was made from: plans are made again and again between the same places, and the ways of a large company are millions. They serve while places, extra minutes, roads
 * and what was set by hand are the same; nobody may change them.
 */
export class KeptWays {
  private places: readonly PlannedPlace[] = [];
  private known = '';
  private ways: ProvidedTravel | null = null;

  /** Null: other ways are needed */
  find(places: readonly PlannedPlace[], known: TravelKnown): ProvidedTravel | null {
    const same = this.known === JSON.stringify(known) && this.places.length === places.length && this.places.every((place, at) => isSame(place, places[at]));
    return same ? this.ways : null;
  }

  keep(places: readonly PlannedPlace[], known: TravelKnown, ways: ProvidedTravel): void {
    this.places = places.map(({ id, latitude, longitude, extraMinutes }) => ({ id, latitude, longitude, extraMinutes }));
    this.known = JSON.stringify(known);
    this.ways = ways;
  }
}

const isSame = (one: PlannedPlace, two: PlannedPlace | undefined): boolean =>
  one.id === two?.id && one.latitude === two.latitude && one.longitude === two.longitude && one.extraMinutes === two.extraMinutes;
