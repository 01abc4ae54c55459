import type { RouteTimes } from './route-times.js';
import { costOfWay } from './routing-problem.js';

const ROUNDING = 1e-9;

/**
 * The beginning of a route that is tried: how long it takes, and between which moments it may set off.
 * Source: Vidal et al. 2013, Computers & Operations Research 40(1) (joining stretches; from memory).
 */
export class Stretch {
  node = 0;
  minutes = 0;
  early = 0;
  late = 0;
  travel = 0;

  constructor(private readonly times: RouteTimes) {}

  /** Sets off. */
  leave(slot: number): void {
    const { slots } = this.times.problem;
    this.node = this.times.startNode[slot] as number;
    this.minutes = this.travel = 0;
    this.early = slots.from[slot] as number;
    this.late = slots.until[slot] as number;
  }

  /** Written over, and not made anew: this happens millions of times. */
  copy({ node, minutes, early, late, travel }: Stretch): void {
    this.node = node;
    this.minutes = minutes;
    this.early = early;
    this.late = late;
    this.travel = travel;
  }

  /** Goes on to a stop; false where that is too late. */
  join(stop: number, open: number, shut: number): boolean {
    const { problem, nodeOf, service } = this.times;
    const { travel } = problem;
    const there = nodeOf[stop] as number;
    const leg = this.node * travel.nodes + there;
    const ahead = this.minutes + (travel.minutes[leg] as number);
    if (this.early + ahead > shut + ROUNDING) return false;
    const wait = Math.max(0, open - ahead - this.late);
    this.travel += costOfWay(travel, leg);
    this.minutes = ahead + (service[stop] as number) + wait;
    this.early = Math.max(open - ahead, this.early) - wait;
    this.late = Math.min(shut - ahead, this.late);
    this.node = there;
    return true;
  }

  /** Minutes of the whole route when it goes on with `next`, or home where that is -1; infinite where it is too late. */
  close(next: number, slot: number): number {
    const { times } = this;
    const { slots, travel } = times.problem;
    const to = next >= 0 ? (times.nodeOf[next] as number) : (times.endNode[slot] as number);
    const ahead = this.minutes + (travel.minutes[this.node * travel.nodes + to] as number);
    const nextLate = next >= 0 ? (times.afterLatest[next] as number) : (slots.until[slot] as number);
    if (this.early + ahead > nextLate + ROUNDING) return Number.POSITIVE_INFINITY;
    const nextOpen = next >= 0 ? (times.afterEarliest[next] as number) : (slots.from[slot] as number);
    return ahead + (next >= 0 ? (times.afterMinutes[next] as number) : 0) + Math.max(0, nextOpen - ahead - this.late);
  }
}
