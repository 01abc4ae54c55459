import { type RoadWays, type TravelKnown, type TravelPlace, type TravelTable, travelTable } from '../core/travel/travel-table.js';

export interface ProvidedTravel {
  readonly table: TravelTable;
  /** Why ways are estimated that should not be; null: none is */
  readonly fault: string | null;
}

/** Knows how long the ways between places are. What is set by hand wins in each of them. */
export abstract class TravelProvider {
  abstract between(places: readonly TravelPlace[], known: TravelKnown): Promise<ProvidedTravel>;
}

/** Estimates by distance: reaches nothing, and always answers. */
export class TravelByDistance extends TravelProvider {
  async between(places: readonly TravelPlace[], known: TravelKnown): Promise<ProvidedTravel> {
    return { table: travelTable(places, known, null), fault: null };
  }
}

export interface AskedRoads {
  readonly ways: RoadWays;
  readonly fault: string | null;
}

/** Asks a service that knows the roads, and estimates by distance what it does not know. */
export class TravelByRoadTable extends TravelProvider {
  constructor(private readonly roads: { ask(places: readonly TravelPlace[]): Promise<AskedRoads> }) {
    super();
  }

  async between(places: readonly TravelPlace[], known: TravelKnown): Promise<ProvidedTravel> {
    const { ways, fault } = await this.roads.ask(places);
    return { table: travelTable(places, known, ways), fault };
  }
}
