import type { RoutingProblem } from '../../visits/core/planner/routing-problem.js';
import { BadInput } from '../evaluation.js';

/** A problem in the text format of Solomon 1987 (Operations Research 35(2)): vehicles and capacity, then a line a customer, the depot first. */
export interface SolomonInstance {
  readonly name: string;
  readonly vehicles: number;
  readonly capacity: number;
  readonly rows: readonly {
    readonly x: number;
    readonly y: number;
    readonly demand: number;
    readonly ready: number;
    readonly due: number;
    readonly service: number;
  }[];
}

export function readSolomon(text: string): SolomonInstance {
  const lines = text.split(/\r?\n/);
  const head = lines.findIndex((line) => /NUMBER\s+CAPACITY/i.test(line));
  const [vehicles, capacity] = numbersOf(lines[head + 1]);
  const rows = lines.slice(head + 2).flatMap((line) => {
    const [id, x, y, demand, ready, due, service] = numbersOf(line);
    if (id === undefined || x === undefined || y === undefined || demand === undefined || ready === undefined || due === undefined || service === undefined)
      return [];
    return [{ x, y, demand, ready, due, service }];
  });
  if (head < 0 || vehicles === undefined || capacity === undefined) throw new BadInput('The file has no line NUMBER CAPACITY with two numbers under it');
  if (rows.length < 2) throw new BadInput('The file has no customers: a line is number, x, y, demand, ready time, due date, service time');
  return { name: lines[0]?.trim() ?? '', vehicles, capacity, rows };
}

function numbersOf(line = ''): number[] {
  const words = line.trim().split(/\s+/);
  const numbers = words.map(Number);
  return words[0] === '' || numbers.some((number) => !Number.isFinite(number)) ? [] : numbers;
}

/** Distance between two rows; cut to one decimal, as the distance-only records of these problems are. */
export function distanceOf(one: { x: number; y: number }, two: { x: number; y: number }, cut: boolean): number {
  const distance = Math.hypot(one.x - two.x, one.y - two.y);
  return cut ? Math.floor(distance * 10 + 1e-9) / 10 : distance;
}

/** As many alike slots as vehicles; every customer may go into any, in its window. */
export function problemOf({ rows, vehicles, capacity }: SolomonInstance, cut: boolean): RoutingProblem {
  const count = rows.length - 1;
  const depot = rows[0] ?? { ready: 0, due: 0 };
  const distances = Float64Array.from(rows.flatMap((one) => rows.map((two) => distanceOf(one, two, cut))));
  const customer = <T>(pick: (row: SolomonInstance['rows'][number]) => T) => rows.slice(1).map(pick);
  const eachOption = (pick: (row: SolomonInstance['rows'][number]) => number) =>
    Float64Array.from(customer(pick).flatMap((value) => Array.from({ length: vehicles }, () => value)));
  return {
    visits: {
      count,
      node: Int32Array.from({ length: count }, (_, visit) => visit + 1),
      serviceMinutes: Float64Array.from(customer(({ service }) => service)),
      unassignedCost: new Float64Array(count).fill(1e6),
      locked: new Uint8Array(count),
      second: new Int32Array(count).fill(-1),
    },
    slots: {
      count: vehicles,
      startNode: new Int32Array(vehicles),
      endNode: new Int32Array(vehicles),
      from: new Float64Array(vehicles).fill(depot.ready),
      until: new Float64Array(vehicles).fill(depot.due),
      regularUntil: new Float64Array(vehicles).fill(depot.due),
      fixedCost: new Float64Array(vehicles),
      day: new Int32Array(vehicles),
      alike: new Int32Array(vehicles),
    },
    options: {
      offset: Int32Array.from({ length: count + 1 }, (_, visit) => visit * vehicles),
      slot: Int32Array.from({ length: count * vehicles }, (_, option) => option % vehicles),
      from: eachOption(({ ready }) => ready),
      until: eachOption(({ due }) => due),
      cost: new Float64Array(count * vehicles),
    },
    travel: { nodes: rows.length, minutes: distances, cost: distances },
    minuteCost: 0,
    overtimeMinuteCost: 0,
    carried: {
      kinds: 1,
      need: Float64Array.from(customer(({ demand }) => demand)),
      needTools: new Int32Array(count),
      aboard: new Float64Array(vehicles).fill(capacity),
      aboardTools: new Int32Array(vehicles),
      store: null,
    },
    nights: null,
  };
}
