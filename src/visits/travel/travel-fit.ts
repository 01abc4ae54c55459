import { Injectable } from '@nestjs/common';
import { Clock, Database, viewOf } from '../../app/index.js';
import { greatCircleKm } from '../core/plan-facts/estimated-way.js';
import { type RecordedTrip, type RefittedRoads, refitRoads } from '../core/travel/refit-roads.js';
import { TravelFitView } from './travel.dto.js';
import { type PlaceRow, placesOf, type RegionRow, recordedTrips, regionsOf, type TripRow } from './travel.repository.js';

const KEPT_DAYS = 730;
const DAY_MS = 24 * 60 * 60 * 1000;

/** Says by region what recorded trips ask for. It changes nothing: whoever agrees edits the region. */
@Injectable()
export class TravelFit {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  async read(): Promise<TravelFitView[]> {
    const { prisma } = this.database;
    const regions = await regionsOf(prisma);
    const rows = await recordedTrips(prisma, new Date(this.clock.now().getTime() - KEPT_DAYS * DAY_MS));
    const places = await placesOf(prisma, [...new Set(rows.flatMap((row) => [row.siteId, row.fromSiteId ?? row.personId]))]);
    const byId = new Map(places.map((place) => [place.id, place]));
    const regionOf = (siteId: string) => regions.find(({ siteIds }) => siteIds.includes(siteId)) ?? regions.find(({ isUsual }) => isUsual);
    const trips = rows.map((row) => ({ region: regionOfTrip(row, regionOf), trip: tripOf(row, byId) }));
    return regions.map((region) => {
      const own = trips.flatMap((each) => (each.region?.id === region.id && each.trip !== null ? [each.trip] : []));
      return viewOf(TravelFitView, { regionId: region.id, regionName: region.name, ...saidOf(refitRoads(own, region), region) });
    });
  }
}

/** From one region to another the trip says nothing of either. */
function regionOfTrip({ siteId, fromSiteId }: TripRow, regionOf: (siteId: string) => RegionRow | undefined): RegionRow | undefined {
  const region = regionOf(siteId);
  return fromSiteId === null || regionOf(fromSiteId)?.id === region?.id ? region : undefined;
}

function tripOf({ siteId, fromSiteId, personId, minutes, km }: TripRow, places: ReadonlyMap<string, PlaceRow>): RecordedTrip | null {
  const [from, to] = [positionOf(places.get(fromSiteId ?? personId)), positionOf(places.get(siteId))];
  return from === null || to === null ? null : { circleKm: greatCircleKm(from, to), minutes, km };
}

function positionOf(place: PlaceRow | undefined) {
  const { latitude = null, longitude = null } = place ?? {};
  return latitude === null || longitude === null ? null : { latitude, longitude };
}

function saidOf(found: RefittedRoads, now: RegionRow): Omit<TravelFitView, 'regionId' | 'regionName'> {
  if (found.kind === 'too-little-data') {
    const summary = `Too little to say: job sheets note ${found.have} usable ${found.have === 1 ? 'trip' : 'trips'}, ${found.need} are needed.`;
    const unknown = { tripsWithKm: null, ratio: null, factor: null, nearKmh: null, farKmh: null, offMinutesNow: null, offMinutesThen: null };
    return { trips: found.have, ...unknown, summary };
  }
  const { trips, tripsWithKm, ratio, roads, offMinutes } = found;
  const [offMinutesNow, offMinutesThen] = [offMinutes.now, offMinutes.fitted].map((off) => Math.round(off * 10) / 10) as [number, number];
  const [factor, nearKmh, farKmh] = [Math.round(roads.factor * 100) / 100, Math.round(roads.nearKmh), Math.round(roads.farKmh)];
  const kept = factor === now.factor ? `stays ${now.factor}` : `${factor} (now ${now.factor})`;
  const speeds = `${nearKmh} km/h near both ends (now ${now.nearKmh}) and ${farKmh} in between (now ${now.farKmh})`;
  const summary = `${trips} trips took ${ratio.toFixed(2)} times as long as estimated, as a rule. Factor ${kept}, ${speeds} would fit them.`;
  return { trips, tripsWithKm, ratio, factor, nearKmh, farKmh, offMinutesNow, offMinutesThen, summary };
}
