import { type RoadWays, type TravelKnown, type TravelPlace, type TravelTable, travelTable } from '../core/travel/travel-table.js';

export interface ProvidedTravel {
  readonly table: TravelTable;
  /** Why ways are estimated that should not be; null: none is */
  readonly fault: string | null;
}

/** How the service that knows roads was met so far. */
export interface MetRoads {
  readonly askedAt: Date | null;
  readonly answeredAt: Date | null;
  /** What was wrong when it was asked last */
  readonly said: string | null;
}

/** Knows how long the ways between places are. What is set by hand wins in each of them. */
export abstract class TravelProvider {
  abstract between(places: readonly TravelPlace[], known: TravelKnown): Promise<ProvidedTravel>;

  /** Null: there is no service that could be asked */
  abstract met(): MetRoads | null;
}

/** Estimates by distance: reaches nothing, and always answers. */
export class TravelByDistance extends TravelProvider {
  async between(places: readonly TravelPlace[], known: TravelKnown): Promise<ProvidedTravel> {
    return { table: travelTable(places, known, null), fault: null };
  }

  met(): null {
    return null;
  }
}

export interface AskedRoads {
  readonly ways: RoadWays;
  readonly fault: string | null;
}

/** Asks a service that knows the roads, and estimates by distance what it does not know. */
export class TravelByRoadTable extends TravelProvider {
  constructor(private readonly roads: { ask(places: readonly TravelPlace[]): Promise<AskedRoads>; readonly met: MetRoads }) {
    super();
  }

  async between(places: readonly TravelPlace[], known: TravelKnown): Promise<ProvidedTravel> {
    const { ways, fault } = await this.roads.ask(places);
    return { table: travelTable(places, known, ways), fault };
  }

  met(): MetRoads {
    return this.roads.met;
  }
}
