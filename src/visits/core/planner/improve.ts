import { Insertions } from './insertions.js';
import { Routes } from './routes.js';
import type { RoutePlan, RoutingProblem } from './routing-problem.js';
import { Ruin, type RuinSettings } from './ruin.js';
import { SeededRandom } from './seeded-random.js';

export interface SearchSettings extends RuinSettings {
  /** Of the acceptance of worse plans, in mean cost of a visit */
  readonly startTemperature: number;
  readonly endTemperature: number;
  /** How many of the nearest visits may be taken out together */
  readonly nearest: number;
  /** Of visits that are left out, so many are tried at each step */
  readonly retries: number;
}

export const USUAL_SEARCH: SearchSettings = {
  mean: 10,
  longestString: 10,
  split: 0.5,
  wholeRoutes: 0,
  startTemperature: 0.6,
  endTemperature: 0.006,
  nearest: 100,
  retries: 15,
};

/** For tours of few stops that each take long. */
export const SHORT_TOURS: SearchSettings = { ...USUAL_SEARCH, wholeRoutes: 0.1, startTemperature: 6, endTemperature: 0.06 };

/** Steps between two looks at `progress`. */
const STEPS_AT_ONCE = 64;

/**
 * Improves a plan by taking visits out that lie together and putting them back where they cost least; a plan that is worse is followed now and then, less and less
 * so. From the first moment on there is a plan that keeps all windows. The same seed and the same `progress` give the same plan.
 * Source: Shaw 1998 (large neighbourhood search); Christiaens, Vanden Berghe 2020, Transportation Science 54(2) (strings, blinks); both from memory.
 *
 * @param progress asked now and then for the share of the search that is over; from 1 on the search ends
 * @param first where the search begins: for each slot its visits by option, in order
 */
export function improve(
  problem: RoutingProblem,
  seed: number,
  progress: (steps: number) => number,
  settings: SearchSettings = USUAL_SEARCH,
  first?: readonly (readonly number[])[],
): RoutePlan & { readonly steps: number } {
  return new Search(problem, seed, settings, first).run(progress);
}

class Search {
  private readonly random: SeededRandom;
  private readonly routes: Routes;
  private readonly insertions: Insertions;
  private readonly ruin: Ruin;
  private absent: number[] = [];
  private readonly key: Float64Array;
  private cost = 0;
  private best: RoutePlan;

  constructor(
    private readonly problem: RoutingProblem,
    seed: number,
    private readonly settings: SearchSettings,
    first: readonly (readonly number[])[] = [],
  ) {
    this.random = new SeededRandom(seed);
    this.routes = new Routes(problem);
    this.insertions = new Insertions(this.routes, this.random);
    this.ruin = new Ruin(this.routes, this.random, settings, settings.nearest);
    this.key = new Float64Array(problem.visits.count);
    for (const options of first) for (const [place, option] of options.entries()) this.routes.insert(visitOf(problem, option), option, place);
    const { offset, until } = problem.options;
    const waiting = Array.from({ length: problem.visits.count }, (_, visit) => visit).filter((visit) => this.routes.slotOf[visit] === -1);
    for (const visit of waiting) {
      let last = 0;
      for (let option = offset[visit] as number; option < (offset[visit + 1] as number); option += 1) last = Math.max(last, until[option] as number);
      this.key[visit] = last;
    }
    waiting.sort((one, two) => (this.key[one] as number) - (this.key[two] as number) || one - two);
    this.putBack(waiting);
    this.cost = this.routes.times.cost.reduce((sum, cost) => sum + cost, 0) + this.absentCost();
    this.best = this.snapshot();
  }

  run(progress: (steps: number) => number): RoutePlan & { steps: number } {
    const { settings, routes, problem } = this;
    // Work takes its time wherever it is put: what differs between plans is the rest.
    let differs = 0;
    for (const cost of routes.times.cost) differs += cost;
    for (const minutes of problem.visits.serviceMinutes) differs -= problem.minuteCost * minutes;
    const scale = Math.max(1e-9, differs / Math.max(1, problem.visits.count));
    const cooling = settings.endTemperature / settings.startTemperature;
    let temperature = 0;
    let steps = 0;
    for (;;) {
      if (steps % STEPS_AT_ONCE === 0) {
        const share = progress(steps);
        if (share >= 1 || problem.visits.count === 0) return { ...this.best, steps };
        temperature = scale * settings.startTemperature * cooling ** share;
      }
      steps += 1;
      this.step(temperature);
    }
  }

  private step(temperature: number): void {
    const { routes, ruin, problem, random } = this;
    const absentBefore = this.absent;
    const absentCost = this.absentCost();
    routes.begin();
    ruin.run(problem.visits.count - absentBefore.length);
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
      if (this.cost < this.best.cost - 1e-7) this.best = this.snapshot();
    } else {
      routes.undo();
      this.absent = absentBefore;
    }
  }

  private putBack(visits: readonly number[]): void {
    const { insertions, routes } = this;
    for (const visit of visits) {
      if (insertions.find(visit)) routes.insert(visit, insertions.option, insertions.place);
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
    visits.sort((one, two) => (key[one] as number) - (key[two] as number));
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

  private snapshot(): RoutePlan {
    const { routes, problem } = this;
    const visited = routes.stops.map((stops) => stops.filter((stop) => stop < problem.visits.count));
    return {
      routes: visited,
      options: visited.map((visits) => visits.map((visit) => routes.optionOf[visit] as number)),
      storeAt: routes.stops.map((stops) => stops.findIndex((stop) => stop >= problem.visits.count)),
      unassigned: this.absent.slice(),
      cost: this.cost,
    };
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
