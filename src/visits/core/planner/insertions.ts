import type { Routes } from './routes.js';
import { costOfWay } from './routing-problem.js';
import type { SeededRandom } from './seeded-random.js';

const ROUNDING = 1e-9;
/** Share of good places that are passed over, so that the same visit does not always fall back into the same place. Source: Christiaens, Vanden Berghe 2020, Transportation Science 54(2) (from memory). */
const BLINKS = 0.01;

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
  private nextCost = Number.POSITIVE_INFINITY;
  private nextPlace = -1;
  /** Of alike empty slots, the last visit that tried one */
  private readonly tried: Int32Array;
  private round = 0;

  constructor(
    private readonly routes: Routes,
    private readonly random: SeededRandom,
  ) {
    const { options, slots, visits } = routes.problem;
    const size = options.slot.length;
    this.version = new Int32Array(size);
    this.bestCost = new Float64Array(size);
    this.bestPlace = visits.count > 0xffff ? new Int32Array(size) : new Uint16Array(size);
    this.tried = new Int32Array(slots.count);
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
      if (!known) this.weigh(visit, option, slot);
      const cost = bestCost[option] as number;
      if (cost >= least) continue;
      if (random.next() >= BLINKS) {
        least = cost;
        this.option = option;
        this.place = bestPlace[option] as number;
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

  /** Of empty slots that are alike one was weighed in this round. */
  private isTried(alike: number): boolean {
    if (alike < 0) return false;
    const tried = this.tried[alike] === this.round;
    this.tried[alike] = this.round;
    return tried;
  }

  private weigh(visit: number, option: number, slot: number): void {
    this.version[option] = this.routes.version[slot] as number;
    this.bestCost[option] = Number.POSITIVE_INFINITY;
    this.nextCost = Number.POSITIVE_INFINITY;
    const { carried } = this.routes.problem;
    const storeAt = this.routes.storeAt[slot] as number;
    if (carried === null || this.fits(visit, slot)) this.weighPlaces(visit, option, slot, 0);
    else if (storeAt >= 0) this.weighPlaces(visit, option, slot, storeAt + 1);
    else if (carried.store !== null) this.weighWithStore(visit, option, slot);
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
    const { slots, options, travel } = routes.problem;
    const { nodes, minutes, cost } = travel;
    const stops = routes.stops[slot] as number[];
    const { nodeOf, earliest, latest, service, timed } = routes.times;
    const here = nodeOf[visit] as number;
    const work = service[visit] as number;
    const open = options.from[option] as number;
    const shut = options.until[option] as number;
    const close = slots.until[slot] as number;
    const end = routes.times.endNode[slot] as number;
    let node = routes.times.startNode[slot] as number;
    let leaving = slots.from[slot] as number;
    // Before a stop that has to begin sooner than work there could be over there is no place; later stops may begin later.
    let start = first;
    while (start < stops.length && (latest[stops[start] as number] as number) + ROUNDING < open + work) start += 1;
    if (start > 0) {
      const before = stops[start - 1] as number;
      node = nodeOf[before] as number;
      leaving = (earliest[before] as number) + (service[before] as number);
    }
    let best = Number.POSITIVE_INFINITY;
    let second = Number.POSITIVE_INFINITY;
    let bestPlace = 0;
    let secondPlace = 0;
    for (let at = start; at <= stops.length; at += 1) {
      const next = at < stops.length ? (stops[at] as number) : -1;
      const nextNode = next >= 0 ? (nodeOf[next] as number) : end;
      let begin = leaving + (minutes[node * nodes + here] as number);
      if (begin > shut + ROUNDING) break;
      if (begin < open) begin = open;
      const arrival = begin + work + (minutes[here * nodes + nextNode] as number);
      if (arrival <= (next >= 0 ? (latest[next] as number) : close) + ROUNDING) {
        let added = 0;
        if (cost !== null) {
          added = (cost[node * nodes + here] as number) + (cost[here * nodes + nextNode] as number);
          if (stops.length > 0) added -= cost[node * nodes + nextNode] as number;
        }
        if (timed && added < second) added += this.addedTime(slot, at, node, here, nextNode, open, shut, work);
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
        leaving = (earliest[next] as number) + (service[next] as number);
      }
    }
    const base = (options.cost[option] as number) + (routes.idle(slot) ? (slots.fixedCost[slot] as number) : 0);
    this.bestCost[option] = best + base;
    this.bestPlace[option] = bestPlace;
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

  /** All pairs of places of the visit and of a new stop at the store. */
  private weighWithStore(visit: number, option: number, slot: number): void {
    const { routes } = this;
    const { slots, visits, minuteCost, travel, options } = routes.problem;
    const stops = routes.stops[slot] as number[];
    const store = visits.count + slot;
    const base = (options.cost[option] as number) + (routes.idle(slot) ? (slots.fixedCost[slot] as number) : 0);
    const end = routes.times.endNode[slot] as number;
    const window = { open: options.from[option] as number, shut: options.until[option] as number };
    // The stop at the store before the visit: what the visit needs is taken aboard there.
    const stretch = {
      node: routes.times.startNode[slot] as number,
      minutes: 0,
      early: slots.from[slot] as number,
      late: slots.until[slot] as number,
      travel: 0,
    };
    for (let storeAt = 0; storeAt <= stops.length; storeAt += 1) {
      const run = { ...stretch };
      if (!this.join(run, store, slots.from[slot] as number, slots.until[slot] as number)) return;
      for (let at = storeAt; at <= stops.length; at += 1) {
        const tried = { ...run };
        if (this.join(tried, visit, window.open, window.shut)) {
          const next = at < stops.length ? (stops[at] as number) : -1;
          const length = this.close(tried, next, slot);
          if (length < Number.POSITIVE_INFINITY) {
            let way = tried.travel + costOfWay(travel, tried.node * travel.nodes + (next >= 0 ? (routes.times.nodeOf[next] as number) : end));
            for (let rest = at; rest < stops.length; rest += 1) {
              const from = routes.times.nodeOf[stops[rest] as number] as number;
              const to = rest + 1 < stops.length ? (routes.times.nodeOf[stops[rest + 1] as number] as number) : end;
              way += costOfWay(travel, from * travel.nodes + to);
            }
            this.keep(option, at, base + way - (routes.times.travelCost[slot] as number) + minuteCost * (length - (routes.times.minutes[slot] as number)));
          }
        }
        if (at === stops.length || !this.joinStop(run, stops[at] as number)) break;
      }
      if (storeAt < stops.length && !this.joinStop(stretch, stops[storeAt] as number)) return;
    }
  }

  private joinStop(run: Stretch, stop: number): boolean {
    const { options } = this.routes.problem;
    const option = this.routes.optionOf[stop] as number;
    return this.join(run, stop, options.from[option] as number, options.until[option] as number);
  }

  private join(run: Stretch, stop: number, open: number, shut: number): boolean {
    const { routes } = this;
    const { travel } = routes.problem;
    const { nodes, minutes } = travel;
    const there = routes.times.nodeOf[stop] as number;
    const ahead = run.minutes + (minutes[run.node * nodes + there] as number);
    if (run.early + ahead > shut + ROUNDING) return false;
    const wait = Math.max(0, open - ahead - run.late);
    run.travel += costOfWay(travel, run.node * nodes + there);
    run.minutes = ahead + (routes.times.service[stop] as number) + wait;
    run.early = Math.max(open - ahead, run.early) - wait;
    run.late = Math.min(shut - ahead, run.late);
    run.node = there;
    return true;
  }

  /** Minutes of the whole route when it goes on with `next`, or home; infinite where that is too late. */
  private close(run: Stretch, next: number, slot: number): number {
    const { routes } = this;
    const { slots, travel } = routes.problem;
    const to = next >= 0 ? (routes.times.nodeOf[next] as number) : (routes.times.endNode[slot] as number);
    const ahead = run.minutes + (travel.minutes[run.node * travel.nodes + to] as number);
    const nextLate = next >= 0 ? (routes.times.afterLatest[next] as number) : (slots.until[slot] as number);
    if (run.early + ahead > nextLate + ROUNDING) return Number.POSITIVE_INFINITY;
    const nextOpen = next >= 0 ? (routes.times.afterEarliest[next] as number) : (slots.from[slot] as number);
    return ahead + (next >= 0 ? (routes.times.afterMinutes[next] as number) : 0) + Math.max(0, nextOpen - ahead - run.late);
  }

  private keep(option: number, place: number, cost: number): void {
    if (cost < (this.bestCost[option] as number)) {
      this.nextCost = this.bestCost[option] as number;
      this.nextPlace = this.bestPlace[option] as number;
      this.bestCost[option] = cost;
      this.bestPlace[option] = place;
    } else if (cost < this.nextCost) {
      this.nextCost = cost;
      this.nextPlace = place;
    }
  }
}

interface Stretch {
  node: number;
  minutes: number;
  early: number;
  late: number;
  travel: number;
}
