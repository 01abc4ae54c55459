import { beginByClock, toWorking } from './breaks/working-clock.js';
import type { Routes } from './routes.js';
import { costOfWay } from './routing-problem.js';

const ROUNDING = 1e-9;
/** Of the places for one of two people on one day, so many of the cheapest are compared. */
const COMPARED = 6;

/** A place in a route, with the starts that are possible there. */
interface Place {
  readonly slot: number;
  readonly option: number;
  readonly at: number;
  readonly cost: number;
  readonly earliest: number;
  readonly latest: number;
}

/** Work of two people: two visits in two routes of one day that begin at the same time. */
export class Pairs {
  private first: Place | null = null;
  private second: Place | null = null;
  private start = 0;

  constructor(private readonly routes: Routes) {}

  /** Finds the two places on one day that cost least together; false where nothing costs less than to leave the work out. */
  find(visit: number, second: number): boolean {
    let best = this.routes.problem.visits.unassignedCost[visit] as number;
    const { locked, serviceMinutes } = this.routes.problem.visits;
    // Who was promised together takes the break as they agree.
    const work = locked[visit] === 1 ? 0 : (serviceMinutes[visit] as number);
    this.first = this.second = null;
    const others = this.placesByDay(second);
    for (const [day, places] of this.placesByDay(visit)) {
      for (const one of places) {
        for (const two of others.get(day) ?? []) {
          if (one.slot === two.slot || one.cost + two.cost >= best) continue;
          const start = this.commonStart(one, two, work);
          if (start === null) continue;
          best = one.cost + two.cost;
          this.first = one;
          this.second = two;
          this.start = start;
        }
      }
    }
    return this.first !== null;
  }

  insert(visit: number, second: number): void {
    const { first: one, second: two, routes } = this;
    if (one === null || two === null) return;
    const { pauses } = routes.problem.slots;
    routes.insert(visit, one.option, one.at, toWorking(pauses?.[one.slot] ?? null, this.start));
    routes.insert(second, two.option, two.at, toWorking(pauses?.[two.slot] ?? null, this.start));
  }

  /** By the clock of the day: the first moment at which both can begin and nobody works alone while the other has a break; null: there is none. */
  private commonStart(one: Place, two: Place, work: number): number | null {
    const { pauses } = this.routes.problem.slots;
    const [first, second] = [pauses?.[one.slot] ?? null, pauses?.[two.slot] ?? null];
    const together = first?.from === second?.from && first?.until === second?.until;
    let start = Math.max(beginByClock(first, one.earliest), beginByClock(second, two.earliest));
    // The break of one may lead into that of the other.
    for (const pause of [first, second, first]) {
      if (pause === null || start >= pause.until) continue;
      if (start >= pause.from || (!together && start + work > pause.from)) start = pause.until;
    }
    return toWorking(first, start) > one.latest || toWorking(second, start) > two.latest ? null : start;
  }

  private placesByDay(visit: number): Map<number, Place[]> {
    const { options, slots } = this.routes.problem;
    const byDay = new Map<number, Place[]>();
    for (let option = options.offset[visit] as number; option < (options.offset[visit + 1] as number); option += 1) {
      const day = slots.day[options.slot[option] as number] as number;
      const places = byDay.get(day) ?? [];
      this.addPlaces(visit, option, places);
      byDay.set(day, places);
    }
    for (const places of byDay.values()) {
      places.sort((one, two) => one.cost - two.cost);
      places.length = Math.min(places.length, COMPARED);
    }
    return byDay;
  }

  private addPlaces(visit: number, option: number, places: Place[]): void {
    const { routes } = this;
    const { problem, times } = routes;
    const { travel, slots, options, minuteCost } = problem;
    const slot = options.slot[option] as number;
    const stops = routes.stops[slot] as number[];
    const here = times.nodeOf[visit] as number;
    const work = times.service[visit] as number;
    const base = (options.cost[option] as number) + (routes.idle(slot) ? (slots.fixedCost[slot] as number) : 0);
    for (let at = 0; at <= stops.length; at += 1) {
      const [before, next] = [at === 0 ? -1 : (stops[at - 1] as number), at === stops.length ? -1 : (stops[at] as number)];
      const node = before < 0 ? (times.startNode[slot] as number) : (times.nodeOf[before] as number);
      const nextNode = next < 0 ? (times.endNode[slot] as number) : (times.nodeOf[next] as number);
      const leaving = before < 0 ? (slots.from[slot] as number) : (times.earliest[before] as number) + (times.service[before] as number);
      const out = node * travel.nodes + here;
      const on = here * travel.nodes + nextNode;
      const direct = node * travel.nodes + nextNode;
      const earliest = Math.max(leaving + (travel.minutes[out] as number), options.from[option] as number);
      const must = (next < 0 ? (slots.until[slot] as number) : (times.latest[next] as number)) - (travel.minutes[on] as number) - work;
      const latest = Math.min(options.until[option] as number, must);
      if (earliest > latest + ROUNDING) continue;
      const minutes = (travel.minutes[out] as number) + (travel.minutes[on] as number) - (travel.minutes[direct] as number) + work;
      const cost = base + costOfWay(travel, out) + costOfWay(travel, on) - costOfWay(travel, direct) + minuteCost * minutes;
      places.push({ slot, option, at, cost, earliest, latest: Math.max(earliest, latest) });
    }
  }
}
