import { firstMissing, leftAboard, shortestWithStore } from './aboard.js';
import { RouteTimes } from './route-times.js';
import type { RoutingProblem } from './routing-problem.js';

/** The routes of a plan while it is searched. They keep all windows at every moment; changes can be undone. */
export class Routes {
  readonly times: RouteTimes;
  /** Stops of each slot, in order */
  readonly stops: number[][];
  readonly size: Int32Array;
  readonly slotOf: Int32Array;
  readonly placeOf: Int32Array;
  readonly optionOf: Int32Array;
  /** The start that work of two people has agreed on; NaN: any in the window */
  readonly agreed: Float64Array;
  /** Changes with the route; the same number, the same route; never 0 */
  readonly version: Int32Array;
  /** What is left of each kind at the stop at the store, or at the end */
  readonly left: Float64Array;
  /** Where in the route the stop at the store is; -1: none */
  readonly storeAt: Int32Array;
  /** Slots with a stop */
  used = 0;
  /** Slots that have changed since `begin` */
  readonly touched: number[] = [];
  private readonly touchedIn: Int32Array;
  private readonly sizeBefore: Int32Array;
  private readonly stopsBefore: number[][];
  private readonly optionsBefore: number[][];
  private readonly agreedBefore: number[][];
  private readonly startBefore: Int32Array;
  private readonly endBefore: Int32Array;
  private readonly versionBefore: Int32Array;
  private readonly costBefore: Float64Array;
  private usedBefore = 0;
  private round = 0;
  private versions = 1;

  constructor(readonly problem: RoutingProblem) {
    const { visits, slots, carried } = problem;
    const size = visits.count + slots.count;
    this.times = new RouteTimes(problem);
    this.stops = Array.from({ length: slots.count }, () => []);
    this.sizeBefore = new Int32Array(slots.count);
    this.stopsBefore = Array.from({ length: slots.count }, () => []);
    this.optionsBefore = Array.from({ length: slots.count }, () => []);
    this.size = new Int32Array(slots.count);
    this.agreedBefore = Array.from({ length: slots.count }, () => []);
    this.agreed = new Float64Array(size).fill(Number.NaN);
    this.slotOf = new Int32Array(size).fill(-1);
    this.placeOf = new Int32Array(size);
    this.optionOf = new Int32Array(size).fill(-1);
    this.version = new Int32Array(slots.count).fill(1);
    this.startBefore = new Int32Array(slots.count);
    this.endBefore = new Int32Array(slots.count);
    this.versionBefore = new Int32Array(slots.count);
    this.costBefore = new Float64Array(slots.count);
    this.touchedIn = new Int32Array(slots.count).fill(-1);
    this.storeAt = new Int32Array(slots.count).fill(-1);
    this.left = new Float64Array(slots.count * (carried?.kinds ?? 0));
    if (carried !== null) this.left.set(carried.aboard);
  }

  /** Puts a visit before the stop at `place`, by one of its options; work of two people at the start that was agreed on. */
  insert(visit: number, option: number, place: number, agreed = Number.NaN): void {
    const slot = this.problem.options.slot[option] as number;
    const stops = this.stops[slot] as number[];
    this.touch(slot);
    if (stops.length === 0) this.used += 1;
    this.choose(visit, option, agreed);
    stops.push(visit);
    for (let at = stops.length - 1; at > place; at -= 1) stops[at] = stops[at - 1] as number;
    stops[place] = visit;
    this.settle(slot, place, place + 1);
  }

  /** Takes those out of one slot that are marked with `mark`. */
  remove(slot: number, marks: Int32Array, mark: number): void {
    this.touch(slot);
    const stops = this.stops[slot] as number[];
    const { count } = this.problem.visits;
    let kept = 0;
    let first = -1;
    let last = 0;
    for (let at = 0; at < stops.length; at += 1) {
      const stop = stops[at] as number;
      if (stop < count && marks[stop] === mark) {
        this.slotOf[stop] = -1;
        if (first < 0) first = at;
        last = kept;
      } else stops[kept++] = stop;
    }
    stops.length = kept;
    this.settle(slot, Math.max(0, first), last);
    if ((this.stops[slot] as number[]).length === 0) this.used -= 1;
  }

  /** Lets a slot begin and end elsewhere. */
  leaveFrom(slot: number, startNode: number, endNode: number): void {
    this.touch(slot);
    this.times.startNode[slot] = startNode;
    this.times.endNode[slot] = endNode;
    this.settle(slot);
  }

  /** Nothing happens in the slot: no stop, and no way to or from a night elsewhere. */
  idle(slot: number): boolean {
    return this.size[slot] === 0 && this.times.startNode[slot] === this.times.endNode[slot];
  }

  /** From here on `undo` and `gain` tell of what has changed. */
  begin(): void {
    this.touched.length = 0;
    this.round += 1;
    this.usedBefore = this.used;
  }

  /** Cost of the changed routes now, less what they cost before. */
  gain(): number {
    let sum = 0;
    for (const slot of this.touched) sum += (this.times.cost[slot] as number) - (this.costBefore[slot] as number);
    return sum;
  }

  /** Whether the slot has changed since `begin`, and may change back. */
  isTouched(slot: number): boolean {
    return this.touchedIn[slot] === this.round;
  }

  /** Of what has changed since `begin`, keeps what is now as before by the number it had: what is known of it holds. */
  keep(): void {
    for (const slot of this.touched) if (this.isAsBefore(slot)) this.version[slot] = this.versionBefore[slot] as number;
    this.round += 1;
  }

  undo(): void {
    const { count } = this.problem.visits;
    this.keep();
    const changed = this.touched.filter((slot) => this.version[slot] !== this.versionBefore[slot]);
    for (const slot of changed) {
      const stops = this.stops[slot] as number[];
      for (let at = 0; at < stops.length; at += 1) if ((stops[at] as number) < count) this.slotOf[stops[at] as number] = -1;
    }
    for (const slot of changed) {
      const kept = this.stopsBefore[slot] as number[];
      const options = this.optionsBefore[slot] as number[];
      const agreed = this.agreedBefore[slot] as number[];
      const stops = this.stops[slot] as number[];
      stops.length = Math.min(stops.length, this.sizeBefore[slot] as number);
      for (let at = 0; at < (this.sizeBefore[slot] as number); at += 1) {
        const stop = kept[at] as number;
        stops[at] = stop;
        if (stop < count) this.choose(stop, options[at] as number, agreed[at] as number);
      }
      this.times.startNode[slot] = this.startBefore[slot] as number;
      this.times.endNode[slot] = this.endBefore[slot] as number;
      this.drive(slot);
      this.version[slot] = this.versionBefore[slot] as number;
    }
    this.used = this.usedBefore;
    this.touched.length = 0;
    this.round += 1;
  }

  private isAsBefore(slot: number): boolean {
    const stops = this.stops[slot] as number[];
    const [before, options, agreed] = [this.stopsBefore[slot] as number[], this.optionsBefore[slot] as number[], this.agreedBefore[slot] as number[]];
    if (stops.length !== this.sizeBefore[slot]) return false;
    if (this.times.startNode[slot] !== this.startBefore[slot] || this.times.endNode[slot] !== this.endBefore[slot]) return false;
    for (let at = 0; at < stops.length; at += 1) {
      const stop = stops[at] as number;
      if (stop !== before[at] || this.optionOf[stop] !== options[at] || !Object.is(this.agreed[stop], agreed[at])) return false;
    }
    return true;
  }

  private choose(visit: number, option: number, agreed: number): void {
    const { options } = this.problem;
    this.optionOf[visit] = option;
    this.agreed[visit] = agreed;
    this.times.from[visit] = Number.isNaN(agreed) ? (options.from[option] as number) : agreed;
    this.times.until[visit] = Number.isNaN(agreed) ? (options.until[option] as number) : agreed;
    this.times.optionCost[visit] = options.cost[option] as number;
  }

  private touch(slot: number): void {
    if (this.touchedIn[slot] === this.round) return;
    this.touchedIn[slot] = this.round;
    this.touched.push(slot);
    const stops = this.stops[slot] as number[];
    const kept = this.stopsBefore[slot] as number[];
    const options = this.optionsBefore[slot] as number[];
    const agreed = this.agreedBefore[slot] as number[];
    // Written over, and longer than what is kept: an array that is emptied has to grow again.
    this.sizeBefore[slot] = stops.length;
    for (let at = 0; at < stops.length; at += 1) {
      const stop = stops[at] as number;
      kept[at] = stop;
      options[at] = this.optionOf[stop] as number;
      agreed[at] = this.agreed[stop] as number;
    }
    this.startBefore[slot] = this.times.startNode[slot] as number;
    this.endBefore[slot] = this.times.endNode[slot] as number;
    this.versionBefore[slot] = this.version[slot] as number;
    this.costBefore[slot] = this.times.cost[slot] as number;
  }

  /** The stops before `from` are the same as they were, and so are those from `to` on. */
  private settle(slot: number, from = 0, to = Number.POSITIVE_INFINITY): void {
    if (this.problem.carried?.store && this.placeStore(slot)) this.drive(slot);
    else this.drive(slot, from, to);
    this.versions += 1;
    this.version[slot] = this.versions;
  }

  private drive(slot: number, from = 0, to = Number.POSITIVE_INFINITY): void {
    const stops = this.stops[slot] as number[];
    this.size[slot] = stops.length;
    for (let at = from; at < stops.length; at += 1) {
      this.slotOf[stops[at] as number] = slot;
      this.placeOf[stops[at] as number] = at;
    }
    this.times.drive(slot, stops, from, Math.min(to, stops.length));
    if (this.problem.carried !== null) this.storeAt[slot] = leftAboard(this.problem, this.problem.carried, slot, stops, this.left);
  }

  /** Puts the stop at the store where the route is shortest, and takes it out where nothing is missing; whether there is or was one. */
  private placeStore(slot: number): boolean {
    const { visits, carried } = this.problem;
    if (carried === null) return false;
    const store = visits.count + slot;
    const stops = this.stops[slot] as number[];
    const was = stops.indexOf(store);
    if (was >= 0) stops.splice(was, 1);
    const missing = firstMissing(carried, slot, stops);
    if (missing >= 0) stops.splice(shortestWithStore(this.times, slot, stops, store, missing), 0, store);
    return was >= 0 || missing >= 0;
  }
}
