import type { RouteTimes } from './route-times.js';
import type { CarriedTable, RoutingProblem } from './routing-problem.js';

const ROUNDING = 1e-9;

/** The first stop for which something is not aboard, where nothing is fetched on the way; -1: all is there. */
export function firstMissing({ kinds, need, needTools, aboard, aboardTools }: CarriedTable, slot: number, visited: readonly number[]): number {
  const tools = aboardTools[slot] as number;
  let first = visited.findIndex((visit) => (tools & (needTools[visit] as number)) !== needTools[visit]);
  for (let kind = 0; kind < kinds; kind += 1) {
    let left = (aboard[slot * kinds + kind] as number) + ROUNDING;
    for (let at = 0; at < visited.length && (first < 0 || at < first); at += 1) {
      left -= need[(visited[at] as number) * kinds + kind] as number;
      if (left < 0) first = at;
    }
  }
  return first;
}

/** Writes what is still aboard where the store is reached, or at the end; answers where in the route the store is, -1 for nowhere. */
export function leftAboard(
  { visits }: RoutingProblem,
  { kinds, need, aboard }: CarriedTable,
  slot: number,
  stops: readonly number[],
  left: Float64Array,
): number {
  const first = slot * kinds;
  for (let kind = first; kind < first + kinds; kind += 1) left[kind] = aboard[kind] as number;
  for (let at = 0; at < stops.length; at += 1) {
    const stop = stops[at] as number;
    if (stop >= visits.count) return at;
    for (let kind = 0; kind < kinds; kind += 1) left[first + kind] = (left[first + kind] as number) - (need[stop * kinds + kind] as number);
  }
  return -1;
}

/** Before which stop, up to `last`, the stop at the store makes the route shortest. */
export function shortestWithStore(times: RouteTimes, slot: number, visited: readonly number[], store: number, last: number): number {
  let shortest = Number.POSITIVE_INFINITY;
  let best = 0;
  for (let at = 0; at <= last; at += 1) {
    const minutes = minutesOf(times, slot, visited, store, at);
    if (minutes < shortest) {
      shortest = minutes;
      best = at;
    }
  }
  return best;
}

/** Minutes of a route with a stop at the store before the stop at `storeAt`; infinite where a window is missed. */
function minutesOf(
  { problem, nodeOf, service, from, until, startNode, endNode }: RouteTimes,
  slot: number,
  visited: readonly number[],
  store: number,
  storeAt: number,
): number {
  const { nodes, minutes } = problem.travel;
  let node = startNode[slot] as number;
  let length = 0;
  let early = problem.slots.from[slot] as number;
  let late = problem.slots.until[slot] as number;
  for (let at = 0; at <= visited.length; at += 1) {
    if (at === visited.length) break;
    for (const stop of at === storeAt ? [store, visited[at] as number] : [visited[at] as number]) {
      const there = nodeOf[stop] as number;
      const ahead = length + (minutes[node * nodes + there] as number);
      if (early + ahead > (until[stop] as number) + ROUNDING) return Number.POSITIVE_INFINITY;
      const wait = Math.max(0, (from[stop] as number) - ahead - late);
      length = ahead + (service[stop] as number) + wait;
      early = Math.max((from[stop] as number) - ahead, early) - wait;
      late = Math.min((until[stop] as number) - ahead, late);
      node = there;
    }
  }
  length += minutes[node * nodes + (endNode[slot] as number)] as number;
  return early + length > (problem.slots.until[slot] as number) + ROUNDING ? Number.POSITIVE_INFINITY : length;
}
