import { Injectable } from '@nestjs/common';
import { Database, InvalidRequest, NotFound, type Reader, viewOf } from '../../app/index.js';
import { USUAL_ROADS } from '../core/plan-facts/estimated-way.js';
import { TRAVEL_SOURCES, type TravelKnown, type TravelPlace, type TravelSource, type TravelTable, travelTable } from '../core/travel/travel-table.js';
import { waysForPlan } from '../core/travel/ways-for-plan.js';
import { KeptWays, type PlannedPlace } from './kept-ways.js';
import { type TravelQuery, TravelServiceView, TravelView } from './travel.dto.js';
import { overridesOf, type PlaceRow, placesOf, regionsOf } from './travel.repository.js';
import { type ProvidedTravel, TravelProvider } from './travel-provider.js';

/** How long ways between homes and sites take; two statements, however many there are. */
@Injectable()
export class Travel {
  private readonly kept = new KeptWays();

  constructor(
    private readonly database: Database,
    private readonly provider: TravelProvider,
  ) {}

  /** Ways between all of these places. */
  private async between(places: readonly TravelPlace[]): Promise<ProvidedTravel> {
    return this.provider.between(places, await known(this.database.prisma));
  }

  /** What people entered of roads. */
  known(): Promise<TravelKnown> {
    return known(this.database.prisma);
  }

  /** Ways that a plan is made from, homes first: in whole minutes, and into a site with its extra minutes. Nobody may change them: where nobody outside is asked, they are kept for the next. */
  async forPlan(homes: readonly TravelPlace[], sites: readonly PlannedPlace[], now: TravelKnown): Promise<ProvidedTravel> {
    const places = [...homes.map((home) => ({ ...home, extraMinutes: 0 })), ...sites];
    const kept = this.kept.find(places, now);
    if (kept !== null) return kept;
    const { table, fault } = await this.provider.between(places, now);
    const ways = { table: waysForPlan(table, homes.length, sites), fault };
    if (this.provider.met() === null) this.kept.keep(places, now, ways);
    return ways;
  }

  /**
   * Ways from other sites to one and back, by the id of the other: as set by hand or estimated by distance. Nobody outside is asked, as this may stand in a transaction. Sites
   * whose position is not known are left out.
   */
  async waysOf(reader: Reader, siteId: string, otherIds: readonly string[]): Promise<Map<string, { here: WayTime; back: WayTime }>> {
    const others = [...new Set(otherIds)].filter((id) => id !== siteId);
    if (others.length === 0) return new Map();
    const places = (await placesOf(reader, [siteId, ...others])).flatMap(positioned);
    const table = travelTable(places, await known(reader), null);
    const at = places.findIndex(({ id }) => id === siteId);
    if (at < 0) return new Map();
    return new Map(
      places.flatMap(({ id }, other) =>
        other === at ? [] : [[id, { here: timeAt(table, other * places.length + at), back: timeAt(table, at * places.length + other) }] as const],
      ),
    );
  }

  service(): TravelServiceView {
    const met = this.provider.met();
    return viewOf(TravelServiceView, { isSetUp: met !== null, ...(met ?? { askedAt: null, answeredAt: null, said: null }) });
  }

  async way({ from, to }: TravelQuery): Promise<TravelView> {
    const rows = await placesOf(this.database.prisma, [from, to]);
    const [one, two] = [placeIn(rows, from, 'from'), placeIn(rows, to, 'to')];
    const { table, fault } = await this.between(from === to ? [one] : [one, two]);
    const at = from === to ? 0 : 1;
    const [minutes, km] = [Math.round(table.minutes[at] ?? 0), Math.round((table.km[at] ?? 0) * 10) / 10];
    const { source } = timeAt(table, at);
    return viewOf(TravelView, { fromName: one.name, toName: two.name, minutes, km, source, said: source === 'estimated by distance' ? fault : null });
  }
}

interface WayTime {
  readonly minutes: number;
  readonly source: TravelSource;
}

const timeAt = ({ minutes, sources }: TravelTable, at: number): WayTime => ({
  minutes: minutes[at] ?? 0,
  source: TRAVEL_SOURCES[sources[at] ?? 0] ?? 'estimated by distance',
});

const positioned = (row: PlaceRow): (PlaceRow & TravelPlace)[] => {
  const { latitude, longitude } = row;
  return latitude === null || longitude === null ? [] : [{ ...row, latitude, longitude }];
};

async function known(reader: Reader): Promise<TravelKnown> {
  const regions = await regionsOf(reader);
  const usual = regions.find(({ isUsual }) => isUsual) ?? USUAL_ROADS;
  return { usual, regions: regions.filter(({ isUsual }) => !isUsual), overrides: await overridesOf(reader) };
}

function placeIn(rows: readonly PlaceRow[], id: string, parameter: string): PlaceRow & TravelPlace {
  const row = rows.find((each) => each.id === id);
  if (row === undefined) throw new NotFound('site or person to send', id);
  const { name, isSite } = row;
  const [place] = positioned(row);
  if (place !== undefined) return place;
  const message = isSite ? `${name} has no position: enter its latitude and longitude` : `the home of ${name} is not known: enter it with their shifts`;
  throw new InvalidRequest('A way begins and ends at a known position', [{ pointer: parameter, message }]);
}
