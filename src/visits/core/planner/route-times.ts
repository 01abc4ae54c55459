import { costOfWay, type RoutingProblem } from './routing-problem.js';

/**
 * Times and cost of the routes of a plan: for every stop the earliest and the latest start, and the stretch before and after it as duration, earliest and
 * latest start, so that the effect of one stop more is told without driving the route again.
 * Source: Savelsbergh 1992, ORSA J. Computing 4(2) (latest start); Vidal et al. 2013, Computers & Operations Research 40(1) (joining stretches); both from memory.
 *
 * Stops are visits; number `visits.count + slot` stands for the slot's stop at the store.
 */
export class RouteTimes {
  readonly nodeOf: Int32Array;
  readonly service: Float64Array;
  /** Home, or where the night is spent */
  readonly startNode: Int32Array;
  readonly endNode: Int32Array;
  /** The window of a stop by the option that is chosen for it */
  readonly from: Float64Array;
  readonly until: Float64Array;
  readonly optionCost: Float64Array;
  readonly earliest: Float64Array;
  readonly latest: Float64Array;
  /** When the work at a stop is over at the earliest */
  readonly leaving: Float64Array;
  /** The way to a stop from the one before, and all ways up to it */
  readonly legMinutes: Float64Array;
  readonly legCost: Float64Array;
  readonly wayCost: Float64Array;
  /** Sum of the options up to a stop */
  private readonly chosenCost: Float64Array;
  readonly beforeMinutes: Float64Array;
  readonly beforeEarliest: Float64Array;
  readonly beforeLatest: Float64Array;
  readonly afterMinutes: Float64Array;
  readonly afterEarliest: Float64Array;
  readonly afterLatest: Float64Array;
  readonly cost: Float64Array;
  readonly travelCost: Float64Array;
  /** From leaving as late as can be to coming back */
  readonly minutes: Float64Array;
  readonly overtime: Float64Array;
  /** Whether minutes cost anything: else stretches are not needed */
  readonly timed: boolean;

  constructor(readonly problem: RoutingProblem) {
    const { visits, slots, carried } = problem;
    const size = visits.count + slots.count;
    const perStop = () => new Float64Array(size);
    [this.earliest, this.latest, this.from, this.until, this.service, this.optionCost] = [perStop(), perStop(), perStop(), perStop(), perStop(), perStop()];
    [this.leaving, this.legMinutes, this.legCost, this.wayCost, this.chosenCost] = [perStop(), perStop(), perStop(), perStop(), perStop()];
    [this.beforeMinutes, this.beforeEarliest, this.beforeLatest] = [perStop(), perStop(), perStop()];
    [this.afterMinutes, this.afterEarliest, this.afterLatest] = [perStop(), perStop(), perStop()];
    const perSlot = () => new Float64Array(slots.count);
    [this.cost, this.travelCost, this.minutes, this.overtime] = [perSlot(), perSlot(), perSlot(), perSlot()];
    this.startNode = slots.startNode.slice();
    this.endNode = slots.endNode.slice();
    this.timed = problem.minuteCost > 0 || problem.overtimeMinuteCost > 0;
    this.nodeOf = new Int32Array(size).fill(carried?.store?.node ?? 0);
    this.nodeOf.set(visits.node);
    this.service.fill(carried?.store?.minutes ?? 0);
    this.service.set(visits.serviceMinutes);
    this.from.set(slots.from, visits.count);
    this.until.set(slots.until, visits.count);
  }

  /** The stops before `first` are the same as when the slot was driven last, and so are those from `end` on: of them only what has changed is reckoned again. */
  drive(slot: number, stops: readonly number[], first: number, end: number): void {
    if (stops.length === 0 && this.startNode[slot] === this.endNode[slot]) {
      this.cost[slot] = this.travelCost[slot] = this.minutes[slot] = this.overtime[slot] = 0;
      return;
    }
    const { slots, minuteCost, overtimeMinuteCost } = this.problem;
    this.driveOut(slot, stops, first);
    this.driveBack(slot, stops, first, end);
    if (this.timed) {
      this.stretchesBefore(slot, stops, first);
      this.stretchesAfter(slot, stops, end);
    }
    this.cost[slot] =
      (this.cost[slot] as number) +
      (this.travelCost[slot] as number) +
      (slots.fixedCost[slot] as number) +
      minuteCost * (this.minutes[slot] as number) +
      overtimeMinuteCost * (this.overtime[slot] as number);
  }

  /** Earliest starts on the way out; travel, overtime, and the sum of the options as the cost so far. */
  private driveOut(slot: number, stops: readonly number[], first: number): void {
    const { nodeOf, service, from, optionCost, earliest, leaving, legMinutes, legCost, wayCost, chosenCost } = this;
    const { slots, travel, nights } = this.problem;
    const { nodes, minutes, cost } = travel;
    const end = this.endNode[slot] as number;
    let node = this.startNode[slot] as number;
    let time = slots.from[slot] as number;
    let way = 0;
    let chosen = 0;
    if (first > 0) {
      const before = stops[first - 1] as number;
      node = nodeOf[before] as number;
      time = leaving[before] as number;
      way = wayCost[before] as number;
      chosen = chosenCost[before] as number;
    }
    for (let at = first; at < stops.length; at += 1) {
      const stop = stops[at] as number;
      const there = nodeOf[stop] as number;
      const leg = node * nodes + there;
      legMinutes[stop] = minutes[leg] as number;
      time += minutes[leg] as number;
      if (time < (from[stop] as number)) time = from[stop] as number;
      earliest[stop] = time;
      time += service[stop] as number;
      leaving[stop] = time;
      if (cost !== null) {
        legCost[stop] = cost[leg] as number;
        way += cost[leg] as number;
      }
      wayCost[stop] = way;
      chosen += optionCost[stop] as number;
      chosenCost[stop] = chosen;
      node = there;
    }
    const home = node * nodes + end;
    this.travelCost[slot] = way + costOfWay(travel, home);
    this.overtime[slot] = Math.max(0, time + (minutes[home] as number) - (slots.regularUntil[slot] as number));
    this.cost[slot] = chosen + (nights !== null && end !== (slots.endNode[slot] as number) ? (nights.cost[slot] as number) : 0);
  }

  /** Latest starts on the way back. */
  private driveBack(slot: number, stops: readonly number[], first: number, end: number): void {
    const { nodeOf, service, until, latest } = this;
    const { slots, travel } = this.problem;
    const { nodes, minutes } = travel;
    let time = slots.until[slot] as number;
    let node = this.endNode[slot] as number;
    if (end < stops.length) {
      const after = stops[end] as number;
      time = latest[after] as number;
      node = nodeOf[after] as number;
    }
    for (let at = end - 1; at >= 0; at -= 1) {
      const stop = stops[at] as number;
      const there = nodeOf[stop] as number;
      time -= (minutes[there * nodes + node] as number) + (service[stop] as number);
      if (time > (until[stop] as number)) time = until[stop] as number;
      if (at < first && time === latest[stop]) return;
      latest[stop] = time;
      node = there;
    }
  }

  private stretchesBefore(slot: number, stops: readonly number[], first: number): void {
    const { nodeOf, service, from, until, legMinutes } = this;
    const { slots, travel } = this.problem;
    let node = this.startNode[slot] as number;
    let length = 0;
    let early = slots.from[slot] as number;
    let late = slots.until[slot] as number;
    if (first > 0) {
      const before = stops[first - 1] as number;
      node = nodeOf[before] as number;
      length = this.beforeMinutes[before] as number;
      early = this.beforeEarliest[before] as number;
      late = this.beforeLatest[before] as number;
    }
    for (let at = first; at < stops.length; at += 1) {
      const stop = stops[at] as number;
      const ahead = length + (legMinutes[stop] as number);
      const wait = Math.max(0, (from[stop] as number) - ahead - late);
      length = ahead + (service[stop] as number) + wait;
      early = Math.max((from[stop] as number) - ahead, early) - wait;
      late = Math.min((until[stop] as number) - ahead, late);
      this.beforeMinutes[stop] = length;
      this.beforeEarliest[stop] = early;
      this.beforeLatest[stop] = late;
      node = nodeOf[stop] as number;
    }
    this.minutes[slot] = length + (travel.minutes[node * travel.nodes + (this.endNode[slot] as number)] as number);
  }

  private stretchesAfter(slot: number, stops: readonly number[], end: number): void {
    const { nodeOf, service, from, until } = this;
    const { slots, travel } = this.problem;
    const { nodes, minutes } = travel;
    let node = this.endNode[slot] as number;
    let length = 0;
    let early = slots.from[slot] as number;
    let late = slots.until[slot] as number;
    if (end < stops.length) {
      const after = stops[end] as number;
      node = nodeOf[after] as number;
      length = this.afterMinutes[after] as number;
      early = this.afterEarliest[after] as number;
      late = this.afterLatest[after] as number;
    }
    for (let at = end - 1; at >= 0; at -= 1) {
      const stop = stops[at] as number;
      const there = nodeOf[stop] as number;
      const ahead = (service[stop] as number) + (minutes[there * nodes + node] as number);
      const wait = Math.max(0, early - ahead - (until[stop] as number));
      length += ahead + wait;
      early = Math.max(early - ahead, from[stop] as number) - wait;
      late = Math.min(late - ahead, until[stop] as number);
      this.afterMinutes[stop] = length;
      this.afterEarliest[stop] = early;
      this.afterLatest[stop] = late;
      node = there;
    }
  }
}
