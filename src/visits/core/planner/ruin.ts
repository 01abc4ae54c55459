import type { Routes } from './routes.js';
import type { RoutingProblem } from './routing-problem.js';
import type { SeededRandom } from './seeded-random.js';

/** Source of the strings and their numbers: Christiaens, Vanden Berghe 2020, Slack Induction by String Removals, Transportation Science 54(2) (from memory). */
export interface RuinSettings {
  /** Visits taken out on average */
  readonly mean: number;
  readonly longestString: number;
  /** Share of strings in which some visits in the middle stay */
  readonly split: number;
  /** In such a string, the chance that one visit more stays: what is taken out then lies further apart */
  readonly wider: number;
  /** Share of times when whole routes are taken out instead of strings */
  readonly wholeRoutes: number;
}

/** Takes visits out that lie near each other, by strings of routes that pass there. */
export class Ruin {
  readonly removed: number[] = [];
  /** Slots that something was taken out of */
  readonly slots: number[] = [];
  /** Of work for two people, the visit of the first one; else the visit itself */
  private readonly firstOf: Int32Array;
  private readonly neighbours: Neighbours;
  private readonly done: Int32Array;
  private readonly mark: Int32Array;
  private round = 0;

  constructor(
    private readonly routes: Routes,
    private readonly random: SeededRandom,
    private readonly settings: RuinSettings,
    nearest: number,
  ) {
    const { visits, slots } = routes.problem;
    this.neighbours = new Neighbours(routes.problem, Math.min(nearest, visits.count));
    this.firstOf = Int32Array.from({ length: visits.count }, (_, visit) => visit);
    for (const [first, second] of visits.second.entries()) if (second >= 0) this.firstOf[second] = first;
    this.done = new Int32Array(slots.count);
    this.mark = new Int32Array(visits.count);
  }

  /** Fills `removed`. */
  run(placed: number): void {
    const { routes, random, settings } = this;
    const { visits } = routes.problem;
    this.removed.length = this.slots.length = 0;
    this.round += 1;
    const whole = random.next() < settings.wholeRoutes;
    const longest = Math.min(settings.longestString, placed / Math.max(1, routes.used));
    const most = whole ? 3 : (4 * settings.mean) / (1 + longest) - 1;
    let strings = Math.floor(random.next() * most + 1);
    const seed = random.below(visits.count);
    const near = this.neighbours.of(seed);
    for (let at = 0; at < near.length && strings > 0; at += 1) {
      const visit = near[at] as number;
      const slot = routes.slotOf[visit] as number;
      if (slot < 0 || this.done[slot] === this.round) continue;
      this.done[slot] = this.round;
      strings -= 1;
      this.slots.push(slot);
      if (whole) this.takeAll(slot);
      else this.takeString(slot, routes.placeOf[visit] as number, longest);
    }
    this.takeOtherHalves();
  }

  /** Of work for two people both go: what was taken from one route is taken from the other. */
  private takeOtherHalves(): void {
    const { routes } = this;
    for (const visit of this.removed) {
      const second = routes.problem.visits.second[visit] as number;
      for (const half of second < 0 ? [] : [visit, second]) {
        const slot = routes.slotOf[half] as number;
        if (slot < 0) continue;
        this.mark[half] = this.round;
        routes.remove(slot, this.mark, this.round);
        this.slots.push(slot);
      }
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
      while (length + kept < size && random.next() < settings.wider) kept += 1;
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
    const first = this.firstOf[stop] as number;
    const paired = (visits.second[first] as number) >= 0;
    if (!paired || !this.removed.includes(first)) this.removed.push(first);
  }
}

/** For each visit those that are nearest by travel, itself first; found when they are first asked for. */
class Neighbours {
  private readonly lists: (Int32Array | undefined)[] = [];
  private readonly key: Float64Array;

  constructor(
    private readonly problem: RoutingProblem,
    private readonly nearest: number,
  ) {
    this.key = new Float64Array(problem.visits.count);
  }

  of(visit: number): Int32Array {
    const known = this.lists[visit];
    if (known !== undefined) return known;
    const { visits, travel } = this.problem;
    const row = (visits.node[visit] as number) * travel.nodes;
    for (let other = 0; other < visits.count; other += 1)
      this.key[other] = other === visit ? -1 : (travel.minutes[row + (visits.node[other] as number)] as number);
    const order = Int32Array.from({ length: visits.count }, (_, other) => other);
    order.sort((one, two) => (this.key[one] as number) - (this.key[two] as number) || one - two);
    const list = order.slice(0, this.nearest);
    this.lists[visit] = list;
    return list;
  }
}
