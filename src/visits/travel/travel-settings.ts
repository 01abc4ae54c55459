import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, Database, EditedMeanwhile, faultIn, NotFound, type Reader, viewOf } from '../../app/index.js';
import { type TravelOverrideDto, TravelOverrideView, type TravelRegionDto, TravelRegionView } from './travel.dto.js';
import {
  holdTravel,
  type OverrideRow,
  overridesOf,
  placesOf,
  type RegionRow,
  regionsOf,
  removeOverride,
  removeRegion,
  writeOverride,
  writeRegion,
} from './travel.repository.js';

/** What people enter of roads: regions with their own, and ways that they know better. */
@Injectable()
export class TravelSettings {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  async regions(): Promise<TravelRegionView[]> {
    return (await regionsOf(this.database.prisma)).map(regionView);
  }

  putRegion(id: string, version: number, input: TravelRegionDto): Promise<TravelRegionView> {
    return this.database.write(async (tx) => {
      await holdTravel(tx);
      const rows = await regionsOf(tx);
      const row = rows.find((region) => region.id === id);
      checkVersion(row, version, 'region', id);
      const others = rows.filter((region) => region.id !== id);
      if (others.some(({ name }) => name === input.name)) throw new Conflict(`There is a region ${input.name} already`);
      await checkSites(tx, input.siteIds, row, others);
      const { name, siteIds, factor, nearKmh, farKmh } = input;
      return regionView(await writeRegion(tx, id, { name, siteIds, factor, nearKmh, farKmh }));
    });
  }

  endRegion(id: string): Promise<void> {
    return this.database.write(async (tx) => {
      await holdTravel(tx);
      const row = (await regionsOf(tx)).find((region) => region.id === id);
      if (row === undefined) throw new NotFound('region', id);
      if (row.isUsual) throw new Conflict(`${row.name} holds for every site that is of no other region, and is not deleted`);
      await removeRegion(tx, id);
    });
  }

  async overrides(): Promise<TravelOverrideView[]> {
    const { prisma } = this.database;
    return overrideViews(prisma, await overridesOf(prisma));
  }

  putOverride({ name: setBy }: Caller, id: string, version: number, { note = '', ...input }: TravelOverrideDto): Promise<TravelOverrideView> {
    const { fromId, toId, bothWays, minutes, km } = input;
    if (fromId === toId) throw faultIn('toId', 'is where the way begins: name another site or person');
    return this.database.write(async (tx) => {
      await holdTravel(tx);
      const rows = await overridesOf(tx);
      const row = rows.find((each) => each.id === id);
      checkVersion(row, version, 'way', id);
      const places = await placesOf(tx, [fromId, toId]);
      for (const field of ['fromId', 'toId'] as const) {
        if (!places.some((place) => place.id === input[field])) throw faultIn(field, `there is no site and no person to send ${input[field]}`);
      }
      const isSame = (each: OverrideRow) =>
        (each.fromId === fromId && each.toId === toId) || (bothWays && each.bothWays && each.fromId === toId && each.toId === fromId);
      if (rows.some((each) => each.id !== id && isSame(each))) throw new Conflict('The way between the two is set by hand already: edit that one');
      const [view] = await overrideViews(tx, [await writeOverride(tx, id, { fromId, toId, bothWays, minutes, km, note, setBy, setAt: this.clock.now() })]);
      if (view === undefined) throw new NotFound('way', id);
      return view;
    });
  }

  async endOverride(id: string): Promise<void> {
    if ((await this.database.write((tx) => removeOverride(tx, id))) === 0) throw new NotFound('way', id);
  }
}

function checkVersion(row: { version: number } | undefined, seen: number, what: string, id: string): void {
  if (row === undefined && seen !== 0) throw new NotFound(what, id);
  if ((row?.version ?? 0) !== seen) throw new EditedMeanwhile(`The ${what} was edited after you read it. Read it again, and make your change to that`);
}

async function checkSites(tx: Reader, siteIds: readonly string[], row: RegionRow | undefined, others: readonly RegionRow[]): Promise<void> {
  if (row?.isUsual === true && siteIds.length > 0) throw faultIn('siteIds', `${row.name} holds for every site that is of no other region: name none`);
  const sites = await placesOf(tx, siteIds);
  for (const [at, id] of siteIds.entries()) {
    if (!sites.some((site) => site.id === id && site.isSite)) throw faultIn(`siteIds/${at}`, `there is no site ${id}`);
    const other = others.find((region) => region.siteIds.includes(id));
    if (other !== undefined) throw faultIn(`siteIds/${at}`, `the site is of the region ${other.name}: take it out there first`);
  }
}

const regionView = (row: RegionRow): TravelRegionView => viewOf(TravelRegionView, row);

async function overrideViews(reader: Reader, rows: readonly OverrideRow[]): Promise<TravelOverrideView[]> {
  const places = await placesOf(
    reader,
    rows.flatMap(({ fromId, toId }) => [fromId, toId]),
  );
  const nameOf = (id: string) => places.find((place) => place.id === id)?.name ?? null;
  return rows.map((row) => viewOf(TravelOverrideView, { ...row, fromName: nameOf(row.fromId), toName: nameOf(row.toId) }));
}
