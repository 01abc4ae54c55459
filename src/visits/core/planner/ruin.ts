import type { Routes } from './routes.js';
import type { SeededRandom } from './seeded-random.js';

/** Source of the strings and their numbers: Christiaens, Vanden Berghe 2020, Slack Induction by String Removals, Transportation Science 54(2) (from memory). */
export interface RuinSettings {
  /** Visits taken out on average */
  readonly mean: number;
  readonly longestString: number;
  /** Share of strings in which some visits in the middle stay */
  readonly split: number;
  /** Share of times when whole routes are taken out instead of strings */
  readonly wholeRoutes: number;
}

/** Takes visits out that lie near each other, by strings of routes that pass there. */
export class Ruin {
  readonly removed: number[] = [];
  private readonly near: Int32Array;
  private readonly nearest: number;
  private readonly done: Int32Array;
  private readonly mark: Int32Array;
  private round = 0;

  constructor(
    private readonly routes: Routes,
    private readonly random: SeededRandom,
    private readonly settings: RuinSettings,
    nearest: number,
  ) {
    const { visits, slots, travel } = routes.problem;
    this.nearest = Math.min(nearest, visits.count);
    this.near = nearVisits(visits.node, visits.count, travel.minutes, travel.nodes, this.nearest);
    this.done = new Int32Array(slots.count);
    this.mark = new Int32Array(visits.count);
  }

  /** Fills `removed`. */
  run(placed: number): void {
    const { routes, random, settings, near, nearest } = this;
    const { visits } = routes.problem;
    this.removed.length = 0;
    this.round += 1;
    const whole = random.next() < settings.wholeRoutes;
    const longest = Math.min(settings.longestString, placed / Math.max(1, routes.used));
    const most = whole ? 3 : (4 * settings.mean) / (1 + longest) - 1;
    let strings = Math.floor(random.next() * most + 1);
    const seed = random.below(visits.count);
    for (let at = 0; at < nearest && strings > 0; at += 1) {
      const visit = near[seed * nearest + at] as number;
      const slot = routes.slotOf[visit] as number;
      if (slot < 0 || this.done[slot] === this.round) continue;
      this.done[slot] = this.round;
      strings -= 1;
      if (whole) this.takeAll(slot);
      else this.takeString(slot, routes.placeOf[visit] as number, longest);
    }
  }

  private takeAll(slot: number): void {
    for (const stop of this.routes.stops[slot] as number[]) this.take(stop);
    this.routes.remove(slot, this.mark, this.round);
  }

  private takeString(slot: number, place: number, longest: number): void {
    const { random, settings } = this;
    const stops = this.routes.stops[slot] as number[];
    const size = stops.length;
    const length = Math.min(size, Math.max(1, Math.floor(random.next() * Math.min(size, longest) + 1 - 1e-9)));
    let kept = 0;
    if (size > length && random.next() < settings.split) {
      kept = 1;
      while (length + kept < size && random.next() < 0.01) kept += 1;
    }
    const span = Math.min(size, length + kept);
    const low = Math.max(0, place - span + 1);
    const high = Math.min(place, size - span);
    const first = low + random.below(high - low + 1);
    const keptFrom = first + random.below(length + 1);
    for (let at = first; at < first + span; at += 1) if (at < keptFrom || at >= keptFrom + kept) this.take(stops[at] as number);
    this.routes.remove(slot, this.mark, this.round);
  }

  private take(stop: number): void {
    const { visits } = this.routes.problem;
    if (stop >= visits.count || visits.locked[stop] === 1) return;
    this.mark[stop] = this.round;
    this.removed.push(stop);
  }
}

/** For every visit those that are nearest by travel, itself first. */
function nearVisits(node: Int32Array, count: number, minutes: Float64Array, nodes: number, nearest: number): Int32Array {
  const near = new Int32Array(count * nearest);
  const key = new Float64Array(count);
  for (let visit = 0; visit < count; visit += 1) {
    const row = (node[visit] as number) * nodes;
    for (let other = 0; other < count; other += 1) key[other] = other === visit ? -1 : (minutes[row + (node[other] as number)] as number);
    const order = Int32Array.from({ length: count }, (_, other) => other).sort((one, two) => (key[one] as number) - (key[two] as number) || one - two);
    near.set(order.subarray(0, nearest), visit * nearest);
  }
  return near;
}
