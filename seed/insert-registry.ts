import { newId } from '../src/app/index.js';
import type { PrismaClient } from '../src/generated/prisma/client.js';
import { pricesOf } from './data/site-prices.js';
import { ITEM_OF_CHEMICAL } from './data/tanks.js';
import type { Scenario } from './types.js';

export interface SkidIds {
  readonly id: string;
  readonly no: number;
  readonly clientId: string;
  readonly siteId: string;
}

export interface SiteIds {
  readonly id: string;
  readonly clientId: string;
}

/** Where each key of the scenario went. */
export interface ScenarioIds {
  readonly skids: ReadonlyMap<string, SkidIds>;
  readonly positions: ReadonlyMap<string, string>;
  readonly meters: ReadonlyMap<string, string>;
  readonly tanks: ReadonlyMap<string, string>;
  /** By their codes */
  readonly items: ReadonlyMap<string, string>;
  readonly names: ReadonlyMap<string, string>;
  readonly people: ReadonlyMap<string, string>;
  readonly sites: ReadonlyMap<string, SiteIds>;
}

/** The id that belongs to a key; a scenario that names something it does not hold is a fault of the scenario. */
export function idOf<Value>(ids: ReadonlyMap<string, Value>, key: string): Value {
  const id = ids.get(key);
  if (id === undefined) throw new Error(`The demo scenario names "${key}", which it does not hold`);
  return id;
}

const idsFor = (keys: Iterable<string>) => new Map([...keys].map((key) => [key, newId()]));
const day = (text: string): Date => new Date(`${text}T00:00:00Z`);
export const meterKey = (positionKey: string, kind: string): string => `${positionKey} ${kind}`;

/** Who, where and what: everything that readings and events refer to. */
export async function insertRegistry(prisma: PrismaClient, scenario: Scenario, passwordHashes: ReadonlyMap<string, string>): Promise<ScenarioIds> {
  const clients = idsFor(scenario.clients.map(({ key }) => key));
  const sites = idsFor(scenario.sites.map(({ key }) => key));
  const people = idsFor(scenario.people.map(({ key }) => key));
  const skidIds = idsFor(scenario.skids.map(({ key }) => key));
  const positions = idsFor(scenario.positions.map(({ key }) => key));
  const items = idsFor(scenario.items.map(({ code }) => code));
  const tanks = idsFor(scenario.tanks.map(({ key }) => key));
  const meters = idsFor(scenario.meters.map(({ positionKey, kind }) => meterKey(positionKey, kind)));
  const clientOfSite = new Map(scenario.sites.map(({ key, clientKey }) => [key, idOf(clients, clientKey)]));
  const clientOfSkid = new Map(scenario.skids.map(({ key, siteKey }) => [key, idOf(clientOfSite, siteKey)]));
  const skidOfPosition = new Map(scenario.positions.map(({ key, skidKey }) => [key, skidKey]));
  const clientOfPosition = (positionKey: string): string => idOf(clientOfSkid, idOf(skidOfPosition, positionKey));

  await prisma.client.createMany({ data: scenario.clients.map(({ key, name, note }) => ({ id: idOf(clients, key), name, note })) });
  await prisma.site.createMany({
    data: scenario.sites.map(({ key, clientKey, name, latitude, longitude, timeZone, accessHours }) => ({
      id: idOf(sites, key),
      clientId: idOf(clients, clientKey),
      name,
      latitude,
      longitude,
      timeZone,
      accessHours,
    })),
  });
  const manager = scenario.people.find(({ role }) => role === 'manager');
  await prisma.sitePrice.createMany({
    data: scenario.sites.map((site) => ({ siteId: idOf(sites, site.key), ...pricesOf(site), by: manager?.name ?? 'Demo' })),
  });
  await prisma.person.createMany({
    data: scenario.people.map(({ key, name, email, role, clientKey, siteKey, mayEnterReadings }) => ({
      id: idOf(people, key),
      name,
      email,
      role,
      clientId: clientKey === null ? null : idOf(clients, clientKey),
      siteId: siteKey === null ? null : idOf(sites, siteKey),
      mayEnterReadings,
      demo: true,
      passwordHash: idOf(passwordHashes, key),
    })),
  });
  await prisma.skid.createMany({
    data: scenario.skids.map(({ key, siteKey, servesKeys: _, areas: __, commissionedOn, ...skid }) => ({
      ...skid,
      id: idOf(skidIds, key),
      siteId: idOf(sites, siteKey),
      clientId: idOf(clientOfSite, siteKey),
      commissionedOn: day(commissionedOn),
    })),
  });
  await prisma.skidArea.createMany({
    data: scenario.skids.flatMap(({ key, areas }) => areas.map(({ fromDay, areaM2 }) => ({ skidId: idOf(skidIds, key), fromDay: day(fromDay), areaM2 }))),
  });
  await prisma.sharedService.createMany({
    data: scenario.skids.flatMap(({ key, servesKeys }) =>
      servesKeys.map((served) => ({ sharedId: idOf(skidIds, key), skidId: idOf(skidIds, served), clientId: idOf(clientOfSkid, key) })),
    ),
  });
  await prisma.position.createMany({
    data: scenario.positions.map(({ key, skidKey, parentKey, kind, name, strokesPerCycle, signal }) => ({
      id: idOf(positions, key),
      clientId: idOf(clientOfSkid, skidKey),
      skidId: idOf(skidIds, skidKey),
      parentId: parentKey === null ? null : idOf(positions, parentKey),
      kind,
      name,
      strokesPerCycle,
      signal,
    })),
  });
  await prisma.item.createMany({ data: scenario.items.map((item) => ({ ...item, id: idOf(items, item.code) })) });
  const fitted = scenario.fittings.map((fitting) => ({ ...fitting, partId: newId() }));
  await prisma.part.createMany({
    data: fitted.map(({ partId, itemCode, serialNumber, setCount, lot }) => ({ id: partId, itemId: idOf(items, itemCode), serialNumber, setCount, lot })),
  });
  const names = new Map(scenario.people.map(({ key, name }) => [key, name]));
  const nameOf = (key: string): string => names.get(key) ?? key;
  await prisma.fitting.createMany({
    data: fitted.map(({ partId, positionKey, fittedAt, fittedBy, removedAt, removedBy, removalReason }) => ({
      clientId: clientOfPosition(positionKey),
      positionId: idOf(positions, positionKey),
      partId,
      fittedAt,
      fittedBy: nameOf(fittedBy),
      removedAt,
      removedBy: removedBy === null ? null : nameOf(removedBy),
      removalReason,
    })),
  });
  await prisma.meter.createMany({
    data: scenario.meters.map(({ positionKey, kind, modulus }) => ({
      id: idOf(meters, meterKey(positionKey, kind)),
      clientId: clientOfPosition(positionKey),
      positionId: idOf(positions, positionKey),
      kind,
      modulus,
    })),
  });
  await prisma.tank.createMany({
    data: scenario.tanks.map(({ key, skidKey, storageTemperatureC, dips: _, deliveries: __, ...tank }) => ({
      ...tank,
      id: idOf(tanks, key),
      clientId: idOf(clientOfSkid, skidKey),
      skidId: idOf(skidIds, skidKey),
      storageC: storageTemperatureC,
      itemId: idOf(items, ITEM_OF_CHEMICAL[tank.chemical]),
    })),
  });
  const made = await prisma.skid.findMany({ where: { id: { in: [...skidIds.values()] } }, select: { id: true, no: true, clientId: true, siteId: true } });
  const bySkidId = new Map(made.map((skid) => [skid.id, skid]));
  return {
    skids: new Map([...skidIds].map(([key, id]) => [key, idOf(bySkidId, id)])),
    sites: new Map(scenario.sites.map(({ key }) => [key, { id: idOf(sites, key), clientId: idOf(clientOfSite, key) }])),
    positions,
    meters,
    tanks,
    items,
    names,
    people,
  };
}
