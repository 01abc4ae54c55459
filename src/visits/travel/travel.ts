import { Injectable } from '@nestjs/common';
import { Database, InvalidRequest, NotFound, type Reader, viewOf } from '../../app/index.js';
import { USUAL_ROADS } from '../core/plan-facts/estimated-way.js';
import { TRAVEL_SOURCES, type TravelKnown, type TravelPlace, type TravelTable, travelTable } from '../core/travel/travel-table.js';
import { type TravelQuery, TravelView } from './travel.dto.js';
import { overridesOf, type PlaceRow, placesOf, regionsOf } from './travel.repository.js';
import { type ProvidedTravel, TravelProvider } from './travel-provider.js';

/** How long ways between homes and sites take; two statements, however many there are. */
@Injectable()
export class Travel {
  constructor(
    private readonly database: Database,
    private readonly provider: TravelProvider,
  ) {}

  /** Ways between all of these places. */
  async between(places: readonly TravelPlace[]): Promise<ProvidedTravel> {
    return this.provider.between(places, await known(this.database.prisma));
  }

  /** The same without asking anybody outside, for where no time is to wait: inside a transaction. */
  async withinReach(reader: Reader, places: readonly TravelPlace[]): Promise<TravelTable> {
    return travelTable(places, await known(reader), null);
  }

  async way({ from, to }: TravelQuery): Promise<TravelView> {
    const rows = await placesOf(this.database.prisma, [from, to]);
    const [one, two] = [placeIn(rows, from, 'from'), placeIn(rows, to, 'to')];
    const { table, fault } = await this.between(from === to ? [one] : [one, two]);
    const at = from === to ? 0 : 1;
    const [minutes, km] = [Math.round(table.minutes[at] ?? 0), Math.round((table.km[at] ?? 0) * 10) / 10];
    const source = TRAVEL_SOURCES[table.sources[at] ?? 0] ?? 'estimated by distance';
    return viewOf(TravelView, { fromName: one.name, toName: two.name, minutes, km, source, said: source === 'estimated by distance' ? fault : null });
  }
}

async function known(reader: Reader): Promise<TravelKnown> {
  const regions = await regionsOf(reader);
  const usual = regions.find(({ isUsual }) => isUsual) ?? USUAL_ROADS;
  return { usual, regions: regions.filter(({ isUsual }) => !isUsual), overrides: await overridesOf(reader) };
}

function placeIn(rows: readonly PlaceRow[], id: string, parameter: string): PlaceRow & TravelPlace {
  const row = rows.find((each) => each.id === id);
  if (row === undefined) throw new NotFound('site or person to send', id);
  const { latitude, longitude, name, isSite } = row;
  if (latitude !== null && longitude !== null) return { ...row, latitude, longitude };
  const message = isSite ? `${name} has no position: enter its latitude and longitude` : `the home of ${name} is not known: enter it with their shifts`;
  throw new InvalidRequest('A way begins and ends at a known position', [{ pointer: parameter, message }]);
}
