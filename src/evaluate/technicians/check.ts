import type { Row, TechniciansInstance } from './instance.js';

export interface TechnicianTour {
  readonly technician: number;
  readonly requests: readonly number[];
  /** Before which request the depot is visited; -1: not at all */
  readonly depotAt: number;
}

/** Says what is wrong with tours, or their working time: from the latest moment of leaving to the earliest of coming back. Reckoned from the file and nothing else. */
export function checkTours(instance: TechniciansInstance, tours: readonly TechnicianTour[]): { feasible: boolean; cost: number; why: string } {
  const { technicians, requests, depot } = instance;
  const seen = new Set<number>();
  let cost = 0;
  const wrong = (why: string) => ({ feasible: false, cost, why });
  for (const tour of tours) {
    const home = technicians[tour.technician];
    if (home === undefined) return wrong(`no technician ${tour.technician}`);
    const parts = [...home.parts];
    const tools = new Set(home.tools);
    const way: Row[] = [{ ...home, service: 0 }];
    let stocked = false;
    for (const [at, number] of tour.requests.entries()) {
      const request = requests[number];
      if (request === undefined) return wrong(`no request ${number}`);
      if (seen.has(number)) return wrong(`request ${number} twice`);
      seen.add(number);
      if (at === tour.depotAt) {
        way.push({ ...depot, service: 0 });
        stocked = true;
      }
      way.push(request);
      if (request.skills.some((skill) => !home.skills.includes(skill))) return wrong(`technician ${tour.technician} lacks a skill for request ${number}`);
      if (stocked) continue;
      if (request.tools.some((tool) => !tools.has(tool))) return wrong(`technician ${tour.technician} lacks a tool for request ${number}`);
      for (const [kind, needed] of request.parts.entries()) {
        parts[kind] = (parts[kind] ?? 0) - needed;
        if ((parts[kind] ?? 0) < 0) return wrong(`technician ${tour.technician} lacks parts for request ${number}`);
      }
    }
    if (way.length === 1) continue;
    way.push({ ...home, service: 0 });
    const late = way.findIndex((row, at) => (arrivals(way)[at] ?? 0) > row.until + 1e-6);
    if (late >= 0) return wrong(`technician ${tour.technician} comes too late to stop ${late}`);
    const back = arrivals(way).at(-1) ?? 0;
    cost += back - latestLeave(way, back);
  }
  return seen.size === requests.length ? { feasible: true, cost, why: '' } : wrong(`${seen.size} of ${requests.length} requests served`);
}

const apart = (one: Row, two: Row) => Math.hypot(one.x - two.x, one.y - two.y);

function arrivals(way: readonly Row[]): number[] {
  const times: number[] = [];
  for (const [at, row] of way.entries()) {
    const before = way[at - 1];
    const time = times[at - 1];
    times.push(before === undefined || time === undefined ? row.from : Math.max(row.from, time + before.service + apart(before, row)));
  }
  return times;
}

function latestLeave(way: readonly Row[], back: number): number {
  let time = back;
  for (let at = way.length - 2; at >= 0; at -= 1) {
    const row = way[at] as Row;
    time -= apart(row, way[at + 1] as Row) + row.service;
    if (at > 0) time = Math.min(time, row.until);
  }
  return time;
}
