import { Draws } from './draws.js';
import { DAYS, ITEMS, SCORED_FROM, type Visit } from './fleet.js';

export const WEEK = 7;
const LEAD_DAYS = { least: 21, most: 56 };

export interface FleetKept {
  /** Share of visits that found every part on the shelf */
  readonly jobFill: number;
  /** Pieces on the shelf over all items, mean of days */
  readonly stock: number;
}

/**
 * Keeps a store for a fleet with a review every week: each item's position is raised to its level, the order takes a time of its own, what is missing is owed.
 * Every rule meets the same visits and the same lead times. The first two years are not counted.
 *
 * @param levelOf  By week and item
 */
export function keepFleet(visits: readonly Visit[], levelOf: (week: number, item: number) => number, seed: number): FleetKept {
  const draws = new Draws(seed);
  const arrivals = Array.from({ length: ITEMS }, () => new Float64Array(DAYS + LEAD_DAYS.most + 1));
  const net = Array.from({ length: ITEMS }, (_, item) => levelOf(0, item));
  const position = [...net];
  let [at, filled, counted, stock] = [0, 0, 0, 0];
  for (let day = 0; day < DAYS; day++) {
    for (let item = 0; item < ITEMS; item++) net[item] = (net[item] ?? 0) + (arrivals[item]?.[day] ?? 0);
    for (let visit = visits[at]; visit !== undefined && visit.day <= day; visit = visits[++at]) {
      const there = visit.items.every((item) => (net[item] ?? 0) >= 1);
      for (const item of visit.items) {
        net[item] = (net[item] ?? 0) - 1;
        position[item] = (position[item] ?? 0) - 1;
      }
      if (day < SCORED_FROM) continue;
      counted += 1;
      filled += there ? 1 : 0;
    }
    if (day >= SCORED_FROM) for (const one of net) stock += Math.max(0, one);
    if (day % WEEK !== 0) continue;
    for (let item = 0; item < ITEMS; item++) {
      const lead = LEAD_DAYS.least + draws.below(LEAD_DAYS.most - LEAD_DAYS.least + 1);
      const missing = levelOf(day / WEEK, item) - (position[item] ?? 0);
      const ofItem = arrivals[item];
      if (missing <= 0 || ofItem === undefined) continue;
      ofItem[day + lead] = (ofItem[day + lead] ?? 0) + missing;
      position[item] = (position[item] ?? 0) + missing;
    }
  }
  return { jobFill: counted === 0 ? 1 : filled / counted, stock: stock / (DAYS - SCORED_FROM) };
}
