import type { TravelTable } from './travel-table.js';

/**
 * Makes of a table, in its place, the ways that a plan is made from: in whole minutes, so that all times are, and into a site with its extra minutes. There are millions of ways, and a
 * second table costs more time than the ways themselves.
 *
 * @param people places that are homes: they come before the sites
 */
export function waysForPlan<Table extends Pick<TravelTable, 'minutes'>>(
  table: Table,
  people: number,
  sites: readonly { readonly extraMinutes: number }[],
): Table {
  const { minutes } = table;
  const places = people + sites.length;
  const extra = Float64Array.from({ length: places }, (_, place) => sites[place - people]?.extraMinutes ?? 0);
  for (let from = 0, way = 0; from < places; from += 1) {
    for (let to = 0; to < places; to += 1, way += 1) minutes[way] = Math.ceil(minutes[way] as number) + (from === to ? 0 : (extra[to] as number));
  }
  return table;
}
