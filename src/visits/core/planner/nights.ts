import type { Routes } from './routes.js';
import { costOfWay, type NightTable } from './routing-problem.js';

const ROUNDING = 1e-9;

/** A way to reach a visit from a night near it: which slots begin or end elsewhere. */
interface Tour {
  readonly option: number;
  readonly slot: number;
  /** The day before ends near the visit, or near where it ended its work */
  readonly nightBefore: boolean;
  readonly nightAfter: boolean;
}

/**
 * Tours of several days: the end of a day is laid near a visit that is far from home, and the next day begins there. A day before or after may have work of its own, or
 * be for the way alone.
 */
export class Nights {
  cost = Number.POSITIVE_INFINITY;
  private tour: Tour | null = null;

  constructor(
    private readonly routes: Routes,
    private readonly table: NightTable,
  ) {}

  /** Finds the cheapest slot without work that reaches the visit with a night before or after; false where none costs less than `most`. */
  find(visit: number, most: number): boolean {
    const { routes, table } = this;
    this.cost = most;
    this.tour = null;
    if (table.far[visit] === 0) return false;
    const { options } = routes.problem;
    for (let option = options.offset[visit] as number; option < (options.offset[visit + 1] as number); option += 1) {
      const slot = options.slot[option] as number;
      if ((options.cost[option] as number) >= this.cost) break;
      if (!routes.idle(slot)) continue;
      const before = this.ofDayBefore(visit, slot);
      const after = this.ofDayAfter(visit, slot);
      if (before < Number.POSITIVE_INFINITY) this.weigh({ option, slot, nightBefore: true, nightAfter: false }, visit, before);
      if (after < Number.POSITIVE_INFINITY) this.weigh({ option, slot, nightBefore: false, nightAfter: true }, visit, after);
      if (before + after < Number.POSITIVE_INFINITY) this.weigh({ option, slot, nightBefore: true, nightAfter: true }, visit, before + after);
    }
    return this.tour !== null;
  }

  /** Puts the visit where `find` found it. */
  insert(visit: number): void {
    const { routes, table, tour } = this;
    if (tour === null) return;
    const { slot, option, nightBefore, nightAfter } = tour;
    const { startNode, endNode } = routes.times;
    const here = routes.times.nodeOf[visit] as number;
    const [before, after] = [table.before[slot] as number, table.after[slot] as number];
    if (nightBefore) routes.leaveFrom(before, startNode[before] as number, here);
    if (nightAfter) routes.leaveFrom(after, here, endNode[after] as number);
    routes.leaveFrom(slot, nightBefore ? here : (startNode[slot] as number), nightAfter ? here : (endNode[slot] as number));
    routes.insert(visit, option, 0);
  }

  /** Lets tours that lost work end at home again where they can, and lays the other nights where the way is shortest. */
  trim(slots: readonly number[]): void {
    for (const slot of slots) {
      const chain = this.chainOf(slot);
      if (chain.length < 2) continue;
      while (chain.length > 1 && this.dropFirst(chain)) chain.shift();
      while (chain.length > 1 && this.dropLast(chain)) chain.pop();
      for (let at = 0; at + 1 < chain.length; at += 1) this.layNight(chain[at] as number, chain[at + 1] as number);
    }
  }

  private weigh(tour: Tour, visit: number, ofNights: number): void {
    const { routes, table } = this;
    const { problem, times } = routes;
    const { slots, options, travel, minuteCost, overtimeMinuteCost } = problem;
    const { slot, option } = tour;
    const here = times.nodeOf[visit] as number;
    const start = tour.nightBefore ? here : (slots.startNode[slot] as number);
    const end = tour.nightAfter ? here : (slots.endNode[slot] as number);
    const out = travel.minutes[start * travel.nodes + here] as number;
    const back = travel.minutes[here * travel.nodes + end] as number;
    const begin = Math.max((slots.from[slot] as number) + out, options.from[option] as number);
    const work = times.service[visit] as number;
    const close = begin + work + back;
    if (begin > (options.until[option] as number) + ROUNDING || close > (slots.until[slot] as number) + ROUNDING) return;
    if (this.nightsWith(tour) > (table.most[slot] as number)) return;
    const cost =
      ofNights +
      (options.cost[option] as number) +
      (slots.fixedCost[slot] as number) +
      costOfWay(travel, start * travel.nodes + here) +
      costOfWay(travel, here * travel.nodes + end) +
      minuteCost * (out + work + back) +
      overtimeMinuteCost * Math.max(0, close - (slots.regularUntil[slot] as number)) +
      (tour.nightAfter ? (table.cost[slot] as number) : 0);
    if (cost >= this.cost) return;
    this.cost = cost;
    this.tour = tour;
  }

  /** What it costs more to end the day before near the visit; infinite where it cannot. */
  private ofDayBefore(visit: number, slot: number): number {
    const { routes, table } = this;
    const { problem, times } = routes;
    const { slots, travel, minuteCost, overtimeMinuteCost } = problem;
    const before = table.before[slot] as number;
    if (before < 0 || times.endNode[before] !== slots.endNode[before]) return Number.POSITIVE_INFINITY;
    const stops = routes.stops[before] as number[];
    const last = stops.at(-1);
    const node = last === undefined ? (times.startNode[before] as number) : (times.nodeOf[last] as number);
    const leaving = last === undefined ? (slots.from[before] as number) : (times.earliest[last] as number) + (times.service[last] as number);
    const here = node * travel.nodes + (times.nodeOf[visit] as number);
    const home = node * travel.nodes + (slots.endNode[before] as number);
    const arrival = leaving + (travel.minutes[here] as number);
    if (arrival > (slots.until[before] as number) + ROUNDING) return Number.POSITIVE_INFINITY;
    const more = costOfWay(travel, here) - costOfWay(travel, home) + minuteCost * ((travel.minutes[here] as number) - (travel.minutes[home] as number));
    const over = Math.max(0, arrival - (slots.regularUntil[before] as number)) - (times.overtime[before] as number);
    return more + overtimeMinuteCost * over + (table.cost[before] as number) + (routes.idle(before) ? (slots.fixedCost[before] as number) : 0);
  }

  /** What it costs more to begin the day after near the visit; infinite where it cannot. */
  private ofDayAfter(visit: number, slot: number): number {
    const { routes, table } = this;
    const { problem, times } = routes;
    const { slots, travel, minuteCost } = problem;
    const after = table.after[slot] as number;
    if (after < 0 || times.startNode[after] !== slots.startNode[after]) return Number.POSITIVE_INFINITY;
    const first = (routes.stops[after] as number[])[0];
    const node = first === undefined ? (times.endNode[after] as number) : (times.nodeOf[first] as number);
    const here = (times.nodeOf[visit] as number) * travel.nodes + node;
    const home = (slots.startNode[after] as number) * travel.nodes + node;
    const latest = first === undefined ? (slots.until[after] as number) : (times.latest[first] as number);
    if ((slots.from[after] as number) + (travel.minutes[here] as number) > latest + ROUNDING) return Number.POSITIVE_INFINITY;
    const more = costOfWay(travel, here) - costOfWay(travel, home) + minuteCost * ((travel.minutes[here] as number) - (travel.minutes[home] as number));
    return more + (routes.idle(after) ? (slots.fixedCost[after] as number) : 0);
  }

  private nightsWith({ slot, nightBefore, nightAfter }: Tour): number {
    const { table } = this;
    const before = nightBefore ? this.chainOf(table.before[slot] as number).length : 0;
    const after = nightAfter ? this.chainOf(table.after[slot] as number).length : 0;
    return before + after;
  }

  /** The slots that are tied to this one by nights away, in order; itself alone without any. */
  private chainOf(slot: number): number[] {
    const { table, routes } = this;
    const { slots } = routes.problem;
    const { startNode, endNode } = routes.times;
    let first = slot;
    while (startNode[first] !== slots.startNode[first] && (table.before[first] as number) >= 0) first = table.before[first] as number;
    const chain = [first];
    let last = first;
    while (endNode[last] !== slots.endNode[last] && (table.after[last] as number) >= 0) {
      last = table.after[last] as number;
      chain.push(last);
    }
    return chain;
  }

  private dropFirst([first, second]: readonly number[]): boolean {
    const { routes } = this;
    if (first === undefined || second === undefined || routes.size[first] !== 0) return false;
    const { slots } = routes.problem;
    const home = slots.startNode[second] as number;
    if (!this.canStart(second, home)) return false;
    routes.leaveFrom(first, slots.startNode[first] as number, slots.endNode[first] as number);
    routes.leaveFrom(second, home, routes.times.endNode[second] as number);
    return true;
  }

  private dropLast(chain: readonly number[]): boolean {
    const { routes } = this;
    const [first, second] = [chain.at(-2), chain.at(-1)];
    if (first === undefined || second === undefined || routes.size[second] !== 0) return false;
    const { slots } = routes.problem;
    const home = slots.endNode[first] as number;
    if (!this.canEnd(first, home)) return false;
    routes.leaveFrom(second, slots.startNode[second] as number, slots.endNode[second] as number);
    routes.leaveFrom(first, routes.times.startNode[first] as number, home);
    return true;
  }

  private layNight(one: number, two: number): void {
    const { routes } = this;
    const { travel } = routes.problem;
    const { nodeOf, startNode, endNode } = routes.times;
    const last = (routes.stops[one] as number[]).at(-1);
    const first = (routes.stops[two] as number[])[0];
    const from = last === undefined ? (startNode[one] as number) : (nodeOf[last] as number);
    const to = first === undefined ? (endNode[two] as number) : (nodeOf[first] as number);
    const way = (node: number) => costOfWay(travel, from * travel.nodes + node) + costOfWay(travel, node * travel.nodes + to);
    const now = endNode[one] as number;
    for (const stop of [last, first]) {
      const node = stop === undefined ? now : (nodeOf[stop] as number);
      if (way(node) >= way(now) - ROUNDING || !this.canEnd(one, node) || !this.canStart(two, node)) continue;
      routes.leaveFrom(one, startNode[one] as number, node);
      routes.leaveFrom(two, node, endNode[two] as number);
      return;
    }
  }

  private canEnd(slot: number, node: number): boolean {
    const { problem, times, stops } = this.routes;
    const last = (stops[slot] as number[]).at(-1);
    const from = last === undefined ? (times.startNode[slot] as number) : (times.nodeOf[last] as number);
    const leaving = last === undefined ? (problem.slots.from[slot] as number) : (times.earliest[last] as number) + (times.service[last] as number);
    return leaving + (problem.travel.minutes[from * problem.travel.nodes + node] as number) <= (problem.slots.until[slot] as number) + ROUNDING;
  }

  private canStart(slot: number, node: number): boolean {
    const { problem, times, stops } = this.routes;
    const first = (stops[slot] as number[])[0];
    const to = first === undefined ? (times.endNode[slot] as number) : (times.nodeOf[first] as number);
    const latest = first === undefined ? (problem.slots.until[slot] as number) : (times.latest[first] as number);
    return (problem.slots.from[slot] as number) + (problem.travel.minutes[node * problem.travel.nodes + to] as number) <= latest + ROUNDING;
  }
}
