import { Insertions } from './insertions.js';
import { Nights } from './nights.js';
import { Pairs } from './pairs.js';
import { Routes } from './routes.js';
import type { FirstPlan, RoutePlan, RoutingProblem } from './routing-problem.js';
import { Ruin, type RuinSettings } from './ruin.js';
import { SeededRandom } from './seeded-random.js';

export interface SearchSettings extends RuinSettings {
  /** Of the acceptance of worse plans, in mean cost of a visit */
  readonly startTemperature: number;
  readonly endTemperature: number;
  /** Share of good places that are passed over, so that the same visit does not always fall back into the same place */
  readonly blinks: number;
  /** How many of the nearest visits may be taken out together */
  readonly nearest: number;
  /** Of visits that are left out, so many are tried at each step */
  readonly retries: number;
}

/** Tours of more stops than these can be put in so many orders that a cool search stays with the first that it meets. */
const WARM_FROM_STOPS = 10;

/** Steps between two looks at `progress`. */
const STEPS_AT_ONCE = 64;

/**
 * Takes visits out that lie together and puts them back where they cost least; a plan that is worse is followed now and then, less and less so.
 * Source: Shaw 1998 (large neighbourhood search); Christiaens, Vanden Berghe 2020, Transportation Science 54(2) (strings, blinks); both from memory.
 */
export class Search {
  private readonly random: SeededRandom;
  private readonly routes: Routes;
  private readonly insertions: Insertions;
  private readonly nights: Nights | null;
  private readonly pairs: Pairs;
  private readonly ruin: Ruin;
  private absent: number[] = [];
  private readonly key: Float64Array;
  private cost = 0;
  /** Slots that differ from the best plan so far */
  private readonly changed = new Set<number>();
  private readonly kept = {
    options: [] as number[][],
    agreed: [] as number[][],
    startNode: [] as number[],
    endNode: [] as number[],
    absent: [] as number[],
    cost: 0,
  };

  constructor(
    private readonly problem: RoutingProblem,
    seed: number,
    private readonly settings: SearchSettings,
    first?: FirstPlan,
  ) {
    this.random = new SeededRandom(seed);
    this.routes = new Routes(problem);
    this.insertions = new Insertions(this.routes, this.random, settings.blinks);
    this.pairs = new Pairs(this.routes);
    this.nights = problem.nights === null ? null : new Nights(this.routes, problem.nights);
    this.ruin = new Ruin(this.routes, this.random, settings, settings.nearest);
    this.key = new Float64Array(problem.visits.count);
    if (first !== undefined) follow(this.routes, first);
    const { offset, until } = problem.options;
    const seconds = new Set(problem.visits.second);
    const waiting = Array.from({ length: problem.visits.count }, (_, visit) => visit).filter(
      (visit) => this.routes.slotOf[visit] === -1 && !seconds.has(visit),
    );
    for (const visit of waiting) {
      let last = 0;
      for (let option = offset[visit] as number; option < (offset[visit + 1] as number); option += 1) last = Math.max(last, until[option] as number);
      this.key[visit] = last;
    }
    const { locked, unassignedCost } = problem.visits;
    // What was promised takes its place before anything else can, and then what is left out least willingly.
    waiting.sort(
      (one, two) =>
        (locked[two] as number) - (locked[one] as number) ||
        (unassignedCost[two] as number) - (unassignedCost[one] as number) ||
        (this.key[one] as number) - (this.key[two] as number) ||
        one - two,
    );
    this.putBack(waiting);
    this.cost = this.routes.times.cost.reduce((sum, cost) => sum + cost, 0) + this.absentCost();
    for (let slot = 0; slot < problem.slots.count; slot += 1) this.changed.add(slot);
    this.keepBest();
  }

  run(progress: (steps: number) => number): RoutePlan & { steps: number } {
    const { settings, routes, problem } = this;
    // Work takes its time wherever it is put: what differs between plans is the rest.
    let differs = 0;
    for (const cost of routes.times.cost) differs += cost;
    for (const minutes of problem.visits.serviceMinutes) differs -= problem.minuteCost * minutes;
    const scale = (this.warmth() * Math.max(1e-9, differs)) / Math.max(1, problem.visits.count);
    const cooling = settings.endTemperature / settings.startTemperature;
    let temperature = 0;
    let steps = 0;
    for (;;) {
      if (steps % STEPS_AT_ONCE === 0) {
        const share = progress(steps);
        if (share >= 1 || problem.visits.count === 0) return { ...this.bestPlan(), steps };
        temperature = scale * settings.startTemperature * cooling ** share;
      }
      steps += 1;
      this.step(temperature);
    }
  }

  /** How much warmer the search begins and ends than with short tours: by what long and short tours of published problems gained. */
  private warmth(): number {
    const stops = (this.problem.visits.count - this.absent.length) / Math.max(1, this.routes.used);
    return Math.max(1, stops / WARM_FROM_STOPS) ** 1.5;
  }

  private step(temperature: number): void {
    const { routes, ruin, problem, random } = this;
    const absentBefore = this.absent;
    const absentCost = this.absentCost();
    routes.begin();
    ruin.run(problem.visits.count - absentBefore.length);
    this.nights?.trim(ruin.slots);
    this.absent = [];
    const back = ruin.removed;
    const share = this.settings.retries / absentBefore.length;
    for (const visit of absentBefore) {
      if (share >= 1 || random.next() < share) back.push(visit);
      else this.absent.push(visit);
    }
    this.sort(back);
    this.putBack(back);
    const gain = routes.gain() + this.absentCost() - absentCost;
    if (gain < -temperature * Math.log(random.next())) {
      this.cost += gain;
      routes.keep();
      for (const slot of routes.touched) this.changed.add(slot);
      if (this.cost < this.kept.cost - 1e-7) this.keepBest();
    } else {
      routes.undo();
      this.absent = absentBefore;
    }
  }

  private putBack(visits: readonly number[]): void {
    const { insertions, nights, pairs, routes } = this;
    for (const visit of visits) {
      const second = this.problem.visits.second[visit] as number;
      if (second >= 0) {
        if (pairs.find(visit, second)) pairs.insert(visit, second);
        else this.absent.push(visit);
        continue;
      }
      const found = insertions.find(visit);
      if (nights?.find(visit, insertions.cost)) nights.insert(visit);
      else if (found) routes.insert(visit, insertions.option, insertions.place);
      else this.absent.push(visit);
    }
  }

  /** In which order visits are put back: at random, the hard ones first, the far ones first, ... */
  private sort(visits: number[]): void {
    const { random, key, problem } = this;
    const { offset, from, until } = problem.options;
    const drawn = random.next() * 17;
    for (const visit of visits) {
      const option = offset[visit] as number;
      if (drawn < 4) key[visit] = random.next();
      else if (drawn < 8) key[visit] = (offset[visit + 1] as number) - option + this.need(visit);
      else if (drawn < 10) key[visit] = -this.far(visit);
      else if (drawn < 11) key[visit] = this.far(visit);
      else if (drawn < 13) key[visit] = (until[option] as number) - (from[option] as number);
      else if (drawn < 15) key[visit] = from[option] as number;
      else key[visit] = -(until[option] as number);
    }
    // They are few: no sort of long lists is quicker.
    for (let at = 1; at < visits.length; at += 1) {
      const visit = visits[at] as number;
      let place = at;
      for (; place > 0 && (key[visits[place - 1] as number] as number) > (key[visit] as number); place -= 1) visits[place] = visits[place - 1] as number;
      visits[place] = visit;
    }
  }

  private need(visit: number): number {
    const { carried } = this.problem;
    return carried === null ? 0 : -(carried.need[visit * carried.kinds] as number);
  }

  private far(visit: number): number {
    const { options, slots, travel, visits } = this.problem;
    const slot = options.slot[options.offset[visit] as number] ?? 0;
    return travel.minutes[(slots.startNode[slot] as number) * travel.nodes + (visits.node[visit] as number)] as number;
  }

  private absentCost(): number {
    let sum = 0;
    for (const visit of this.absent) sum += this.problem.visits.unassignedCost[visit] as number;
    return sum;
  }

  /** Keeps the plan as the best so far: only what has changed since the last one is written. */
  private keepBest(): void {
    const { routes, kept } = this;
    for (const slot of this.changed) {
      const stops = (routes.stops[slot] as number[]).filter((stop) => stop < this.problem.visits.count);
      kept.options[slot] = stops.map((visit) => routes.optionOf[visit] as number);
      kept.agreed[slot] = stops.map((visit) => routes.agreed[visit] as number);
      kept.startNode[slot] = routes.times.startNode[slot] as number;
      kept.endNode[slot] = routes.times.endNode[slot] as number;
    }
    this.changed.clear();
    kept.absent = this.absent.slice();
    kept.cost = this.cost;
  }

  private bestPlan(): RoutePlan {
    const { problem, kept } = this;
    const routes = new Routes(problem);
    follow(routes, kept);
    const visited = routes.stops.map((stops) => stops.filter((stop) => stop < problem.visits.count));
    return {
      routes: visited,
      options: kept.options,
      agreed: kept.agreed,
      starts: visited.map((visits) => visits.map((visit) => routes.times.earliest[visit] as number)),
      storeAt: [...routes.storeAt],
      startNode: kept.startNode,
      endNode: kept.endNode,
      unassigned: kept.absent,
      cost: kept.cost,
    };
  }
}

function follow(routes: Routes, { options, agreed, startNode, endNode }: FirstPlan): void {
  const { problem } = routes;
  for (const [slot, chosen] of options.entries()) {
    if (startNode[slot] !== problem.slots.startNode[slot] || endNode[slot] !== problem.slots.endNode[slot]) {
      routes.leaveFrom(slot, startNode[slot] as number, endNode[slot] as number);
    }
    for (const [at, option] of chosen.entries()) {
      // At the end of what is there: a stop at the store may have come in between.
      routes.insert(visitOf(problem, option), option, (routes.stops[slot] as number[]).length, agreed[slot]?.[at]);
    }
  }
}

function visitOf({ options, visits }: RoutingProblem, option: number): number {
  let low = 0;
  let high = visits.count;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((options.offset[middle] as number) <= option) low = middle;
    else high = middle;
  }
  return low;
}
