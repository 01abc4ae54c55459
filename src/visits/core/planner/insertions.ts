import type { Routes } from './routes.js';
import { costOfWay } from './routing-problem.js';
import type { SeededRandom } from './seeded-random.js';
import { Stretch } from './stretch.js';

const ROUNDING = 1e-9;

/**
 * The cheapest place for a visit. What a place in a route costs changes only when the route does: the best place of every option is kept with the version of the route that it holds
 * for. The second best is asked for so seldom that it is found again: there are millions of options, and what is kept of each has to be small.
 */
export class Insertions {
  option = -1;
  place = -1;
  cost = Number.POSITIVE_INFINITY;
  private readonly version: Int32Array;
  private readonly bestCost: Float64Array;
  private readonly bestPlace: Int32Array | Uint16Array;
  /** Of the option that was weighed last */
  private weighedCost = Number.POSITIVE_INFINITY;
  private weighedPlace = -1;
  private nextCost = Number.POSITIVE_INFINITY;
  private nextPlace = -1;
  private readonly toStore: Stretch;
  private readonly onwards: Stretch;
  private readonly tried: Stretch;
  /** Of alike empty slots, the last visit that tried one */
  private readonly triedAlike: Int32Array;
  private round = 0;

  constructor(
    private readonly routes: Routes,
    private readonly random: SeededRandom,
    private readonly blinks: number,
  ) {
    const { options, slots, visits } = routes.problem;
    const size = options.slot.length;
    this.version = new Int32Array(size);
    this.bestCost = new Float64Array(size);
    this.bestPlace = visits.count > 0xffff ? new Int32Array(size) : new Uint16Array(size);
    this.triedAlike = new Int32Array(slots.count);
    [this.toStore, this.onwards, this.tried] = [new Stretch(routes.times), new Stretch(routes.times), new Stretch(routes.times)];
  }

  /** Finds the option and place that cost least; false where there is none that costs less than to leave the visit out. */
  find(visit: number): boolean {
    const { routes, random, version, bestCost, bestPlace } = this;
    const { options, slots, visits } = routes.problem;
    const { slot: slotOf, cost: costOf } = options;
    this.round += 1;
    let least = visits.unassignedCost[visit] as number;
    this.option = -1;
    const end = options.offset[visit + 1] as number;
    for (let option = options.offset[visit] as number; option < end; option += 1) {
      // Options come by their cost.
      if ((costOf[option] as number) >= least) break;
      const slot = slotOf[option] as number;
      const known = version[option] === routes.version[slot];
      if (known && (bestCost[option] as number) >= least) continue;
      if (routes.size[slot] === 0 && this.isTried(slots.alike[slot] as number)) continue;
      if (!known) {
        if (routes.idle(slot) && (costOf[option] as number) + this.leastAlone(visit, slot) >= least) continue;
        this.weigh(visit, option, slot);
      }
      const cost = known ? (bestCost[option] as number) : this.weighedCost;
      if (cost >= least) continue;
      if (random.next() >= this.blinks) {
        least = cost;
        this.option = option;
        this.place = known ? (bestPlace[option] as number) : this.weighedPlace;
        continue;
      }
      this.weigh(visit, option, slot);
      if (this.nextCost < least) {
        least = this.nextCost;
        this.option = option;
        this.place = this.nextPlace;
      }
    }
    this.cost = least;
    return this.option >= 0;
  }

  /** What a visit alone in an empty slot costs beyond its option, but for overtime: much is told by it alone while a plan is empty. */
  private leastAlone(visit: number, slot: number): number {
    const { slots, travel, minuteCost, carried } = this.routes.problem;
    if (carried !== null) return 0;
    const { nodeOf, service, startNode, endNode } = this.routes.times;
    const here = nodeOf[visit] as number;
    const out = (startNode[slot] as number) * travel.nodes + here;
    const back = here * travel.nodes + (endNode[slot] as number);
    const ways = travel.cost === null ? 0 : (travel.cost[out] as number) + (travel.cost[back] as number);
    const minutes = (travel.minutes[out] as number) + (service[visit] as number) + (travel.minutes[back] as number);
    // The sum is rounded otherwise than the cost that is weighed.
    return ways + minuteCost * minutes + (slots.fixedCost[slot] as number) - ROUNDING;
  }

  /** Of empty slots that are alike one was weighed in this round. */
  private isTried(alike: number): boolean {
    if (alike < 0) return false;
    const tried = this.triedAlike[alike] === this.round;
    this.triedAlike[alike] = this.round;
    return tried;
  }

  private weigh(visit: number, option: number, slot: number): void {
    this.weighedCost = Number.POSITIVE_INFINITY;
    this.nextCost = Number.POSITIVE_INFINITY;
    const { carried } = this.routes.problem;
    const storeAt = this.routes.storeAt[slot] as number;
    if (carried === null || this.fits(visit, slot)) this.weighPlaces(visit, option, slot, 0);
    else if (storeAt >= 0) this.weighPlaces(visit, option, slot, storeAt + 1);
    else if (carried.store !== null) this.weighWithStore(visit, option, slot);
    // A route that changes just now mostly changes back: what is known of it as it was is worth more.
    if (this.routes.isTouched(slot)) return;
    this.version[option] = this.routes.version[slot] as number;
    this.bestCost[option] = this.weighedCost;
    this.bestPlace[option] = this.weighedPlace;
  }

  /** Whether what the visit needs is aboard without another stop at the store. */
  private fits(visit: number, slot: number): boolean {
    const { carried } = this.routes.problem;
    if (carried === null) return true;
    const { kinds, need, needTools, aboardTools } = carried;
    const tools = needTools[visit] as number;
    if (((aboardTools[slot] as number) & tools) !== tools) return false;
    for (let kind = 0; kind < kinds; kind += 1) {
      if ((need[visit * kinds + kind] as number) > (this.routes.left[slot * kinds + kind] as number) + ROUNDING) return false;
    }
    return true;
  }

  /** All places from `first` on. */
  private weighPlaces(visit: number, option: number, slot: number, first: number): void {
    const { routes } = this;
    const { options, slots, travel } = routes.problem;
    const { nodes, minutes, cost } = travel;
    const stops = routes.stops[slot] as number[];
    const count = stops.length;
    const { nodeOf, latest, leaving: leavingOf, legCost, service, timed, startNode, endNode } = routes.times;
    const here = nodeOf[visit] as number;
    const on = here * nodes;
    const work = service[visit] as number;
    const open = options.from[option] as number;
    const shut = (options.until[option] as number) + ROUNDING;
    const idle = routes.idle(slot);
    const end = endNode[slot] as number;
    let node = startNode[slot] as number;
    let leaving = slots.from[slot] as number;
    // Before a stop that has to begin sooner than work there could be over there is no place; later stops may begin later.
    let start = first;
    while (start < count && (latest[stops[start] as number] as number) + ROUNDING < open + work) start += 1;
    if (start > 0) {
      const before = stops[start - 1] as number;
      node = nodeOf[before] as number;
      leaving = leavingOf[before] as number;
    }
    let best = Number.POSITIVE_INFINITY;
    let second = Number.POSITIVE_INFINITY;
    let bestPlace = 0;
    let secondPlace = 0;
    for (let at = start; at <= count; at += 1) {
      let begin = leaving + (minutes[node * nodes + here] as number);
      if (begin > shut) break;
      if (begin < open) begin = open;
      const next = at < count ? (stops[at] as number) : -1;
      const nextNode = next >= 0 ? (nodeOf[next] as number) : end;
      const must = next >= 0 ? (latest[next] as number) : (slots.until[slot] as number);
      if (begin + work + (minutes[on + nextNode] as number) <= must + ROUNDING) {
        let added = 0;
        if (cost !== null) {
          added = (cost[node * nodes + here] as number) + (cost[on + nextNode] as number);
          if (next >= 0) added -= legCost[next] as number;
          else if (!idle) added -= cost[node * nodes + end] as number;
        }
        if (timed && added < second) added += this.addedTime(slot, at, node, here, nextNode, open, shut - ROUNDING, work);
        if (added < best) {
          second = best;
          secondPlace = bestPlace;
          best = added;
          bestPlace = at;
        } else if (added < second) {
          second = added;
          secondPlace = at;
        }
      }
      if (next >= 0) {
        node = nextNode;
        leaving = leavingOf[next] as number;
      }
    }
    const base = (options.cost[option] as number) + (idle ? (slots.fixedCost[slot] as number) : 0);
    this.weighedCost = best + base;
    this.weighedPlace = bestPlace;
    this.nextCost = second + base;
    this.nextPlace = secondPlace;
  }

  /** Cost of the minutes that a visit between two stops adds: the stretch before it, the visit, the stretch after it, joined. */
  private addedTime(slot: number, at: number, node: number, here: number, nextNode: number, open: number, shut: number, work: number): number {
    const { routes } = this;
    const { slots, travel, minuteCost, overtimeMinuteCost } = routes.problem;
    const { nodes, minutes } = travel;
    const stops = routes.stops[slot] as number[];
    const before = at > 0 ? (stops[at - 1] as number) : -1;
    const next = at < stops.length ? (stops[at] as number) : -1;
    let length = before >= 0 ? (routes.times.beforeMinutes[before] as number) : 0;
    let early = before >= 0 ? (routes.times.beforeEarliest[before] as number) : (slots.from[slot] as number);
    let late = before >= 0 ? (routes.times.beforeLatest[before] as number) : (slots.until[slot] as number);
    let ahead = length + (minutes[node * nodes + here] as number);
    let wait = Math.max(0, open - ahead - late);
    length = ahead + work + wait;
    early = Math.max(open - ahead, early) - wait;
    late = Math.min(shut - ahead, late);
    ahead = length + (minutes[here * nodes + nextNode] as number);
    const nextOpen = next >= 0 ? (routes.times.afterEarliest[next] as number) : (slots.from[slot] as number);
    wait = Math.max(0, nextOpen - ahead - late);
    length = ahead + (next >= 0 ? (routes.times.afterMinutes[next] as number) : 0) + wait;
    let added = minuteCost * (length - (routes.times.minutes[slot] as number));
    if (overtimeMinuteCost > 0) {
      early = Math.max(nextOpen - ahead, early) - wait;
      const over = early + length - (slots.regularUntil[slot] as number);
      added += overtimeMinuteCost * (Math.max(0, over) - (routes.times.overtime[slot] as number));
    }
    return added;
  }

  /** All pairs of places of the visit and of a new stop at the store: what the visit needs is taken aboard there. */
  private weighWithStore(visit: number, option: number, slot: number): void {
    const { routes, toStore, onwards, tried } = this;
    const { slots, visits, minuteCost, travel, options } = routes.problem;
    const { times } = routes;
    const stops = routes.stops[slot] as number[];
    const store = visits.count + slot;
    const [open, shut] = [options.from[option] as number, options.until[option] as number];
    const base = (options.cost[option] as number) + (routes.idle(slot) ? (slots.fixedCost[slot] as number) : 0);
    const before = (times.travelCost[slot] as number) + minuteCost * (times.minutes[slot] as number);
    toStore.leave(slot);
    for (let storeAt = 0; storeAt <= stops.length; storeAt += 1) {
      onwards.copy(toStore);
      if (!onwards.join(store, slots.from[slot] as number, slots.until[slot] as number)) return;
      for (let at = storeAt; at <= stops.length; at += 1) {
        tried.copy(onwards);
        if (tried.join(visit, open, shut)) {
          const next = at < stops.length ? (stops[at] as number) : -1;
          const minutes = tried.close(next, slot);
          if (minutes < Number.POSITIVE_INFINITY) {
            const to = next >= 0 ? (times.nodeOf[next] as number) : (times.endNode[slot] as number);
            const rest = next >= 0 ? (times.travelCost[slot] as number) - (times.wayCost[next] as number) : 0;
            const way = tried.travel + costOfWay(travel, tried.node * travel.nodes + to) + rest;
            this.keep(at, base + way + minuteCost * minutes - before);
          }
        }
        if (at === stops.length || !this.joinStop(onwards, stops[at] as number)) break;
      }
      if (storeAt < stops.length && !this.joinStop(toStore, stops[storeAt] as number)) return;
    }
  }

  private joinStop(stretch: Stretch, stop: number): boolean {
    const { from, until } = this.routes.times;
    return stretch.join(stop, from[stop] as number, until[stop] as number);
  }

  private keep(place: number, cost: number): void {
    if (cost < this.weighedCost) {
      this.nextCost = this.weighedCost;
      this.nextPlace = this.weighedPlace;
      this.weighedCost = cost;
      this.weighedPlace = place;
    } else if (cost < this.nextCost) {
      this.nextCost = cost;
      this.nextPlace = place;
    }
  }
}
