import { SHARED } from '../data/shared-units.js';
import { CLIENTS, SITES } from '../data/sites.js';
import { SKIDS } from '../data/skids.js';
import type { EndOfRun, SharedPlan, SitePlan, SkidPlan } from '../plan.js';
import type { ScenarioClient } from '../types.js';
import { randomOf } from './random.js';

export interface FleetPlan {
  readonly clients: readonly ScenarioClient[];
  readonly sites: readonly SitePlan[];
  readonly skids: readonly SkidPlan[];
  readonly shared: readonly SharedPlan[];
}

/**
 * The demo fleet, or one of another size: fewer skids are the first of the twelve, more are further fleets like it, with clients and sites of their own and skids
 * that differ in size, age and health.
 */
export function fleetOf(skids: number): FleetPlan {
  const fleets = Array.from({ length: Math.ceil(skids / SKIDS.length) }, (_, index) => copy(index));
  const kept = fleets.flatMap((fleet) => fleet.skids).slice(0, skids);
  const keys = new Set(kept.map(({ key }) => key));
  const siteKeys = new Set(kept.map(({ siteKey }) => siteKey));
  const sites = fleets.flatMap((fleet) => fleet.sites).filter(({ key }) => siteKeys.has(key));
  const clientKeys = new Set(sites.map(({ clientKey }) => clientKey));
  return {
    clients: fleets.flatMap(({ clients }) => clients).filter(({ key }) => clientKeys.has(key)),
    sites,
    skids: kept,
    shared: fleets.flatMap(({ shared }) => shared).filter(({ servesKeys }) => servesKeys.every((key) => keys.has(key))),
  };
}

function copy(index: number): FleetPlan {
  if (index === 0) return { clients: CLIENTS, sites: SITES, skids: SKIDS, shared: SHARED };
  const key = (text: string) => `${text}-${index + 1}`;
  const name = (text: string) => `${text} ${index + 1}`;
  return {
    clients: CLIENTS.map((client) => ({ ...client, key: key(client.key), name: name(client.name) })),
    sites: SITES.map((site) => ({ ...moved(site, key(site.key)), key: key(site.key), clientKey: key(site.clientKey), name: name(site.name) })),
    skids: SKIDS.map((plan) => ({ ...varied(plan, key(plan.key)), key: key(plan.key), siteKey: key(plan.siteKey), name: name(plan.name) })),
    shared: SHARED.map((plan) => ({
      ...plan,
      key: key(plan.key),
      siteKey: key(plan.siteKey),
      servesKeys: plan.servesKeys.map(key),
      name: name(plan.name),
      tanks: plan.tanks.map((tank) => ({ ...tank, key: key(tank.key) })),
    })),
  };
}

function moved(site: SitePlan, key: string): SitePlan {
  const random = randomOf(`${key} place`);
  return {
    ...site,
    latitude: site.latitude + random.between(-0.6, 0.6),
    longitude: site.longitude + random.between(-0.6, 0.6),
    warmerC: site.warmerC + random.normal(),
  };
}

function varied(plan: SkidPlan, key: string): SkidPlan {
  const random = randomOf(`${key} variation`);
  const end = ({ lastDaysAgo, limitInDays }: EndOfRun): EndOfRun => {
    const life = (lastDaysAgo + limitInDays) * random.between(0.75, 1.3);
    const spent = random.between(0.1, 1.02);
    return { lastDaysAgo: Math.max(3, life * spent), limitInDays: life * (1 - spent) };
  };
  return {
    ...plan,
    commissionedDaysAgo: Math.round(plan.commissionedDaysAgo * random.between(0.7, 1.3)),
    newLmhBar: Math.round(plan.newLmhBar * random.between(0.9, 1.1)),
    demandShare: plan.demandShare * random.between(0.85, 1.05),
    lossPerYear: plan.lossPerYear * random.between(0.7, 1.2),
    cip: end(plan.cip),
    cartridge: plan.cartridge && { ...plan.cartridge, ...end(plan.cartridge) },
    tanks: plan.tanks.map((tank) => ({ ...tank, key: `${key} ${tank.chemical}` })),
  };
}
