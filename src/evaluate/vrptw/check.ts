import { distanceOf, type SolomonInstance } from './solomon.js';

/** Says what is wrong with routes of customer numbers, or how long they are; reckoned from the file and nothing else. */
export function checkRoutes(
  { rows, vehicles, capacity }: SolomonInstance,
  routes: readonly (readonly number[])[],
  cut: boolean,
): { feasible: boolean; distance: number; why: string } {
  const depot = rows[0];
  const seen = new Set<number>();
  let distance = 0;
  const wrong = (why: string) => ({ feasible: false, distance, why });
  if (depot === undefined) return wrong('no depot');
  if (routes.length > vehicles) return wrong(`${routes.length} routes for ${vehicles} vehicles`);
  for (const route of routes) {
    let time = depot.ready;
    let load = 0;
    let place = depot;
    for (const customer of route) {
      const row = rows[customer];
      if (row === undefined || customer === 0) return wrong(`no customer ${customer}`);
      if (seen.has(customer)) return wrong(`customer ${customer} twice`);
      seen.add(customer);
      distance += distanceOf(place, row, cut);
      time = Math.max(row.ready, time + place.service + distanceOf(place, row, cut));
      load += row.demand;
      if (time > row.due + 1e-6) return wrong(`customer ${customer} at ${time}, due ${row.due}`);
      place = row;
    }
    distance += distanceOf(place, depot, cut);
    if (load > capacity) return wrong(`load ${load} of ${capacity}`);
    if (time + place.service + distanceOf(place, depot, cut) > depot.due + 1e-6) return wrong('back too late');
  }
  return seen.size === rows.length - 1 ? { feasible: true, distance, why: '' } : wrong(`${seen.size} of ${rows.length - 1} customers served`);
}
