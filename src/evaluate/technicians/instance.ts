import type { RoutingProblem } from '../../visits/core/planner/routing-problem.js';
import { BadInput } from '../evaluation.js';

/** A place of the problem: the depot, a technician's home or a request. */
export interface Row {
  readonly x: number;
  readonly y: number;
  readonly from: number;
  readonly until: number;
  readonly service: number;
  readonly skills: readonly number[];
  readonly tools: readonly number[];
  readonly parts: readonly number[];
}

/** Technicians with homes, skills, tools and spare parts, requests, and a depot where everything is to be had. Source of the format: Pillac, Gueret, Medaglia 2013, Optimization Letters 7(7). */
export interface TechniciansInstance {
  readonly name: string;
  readonly depot: Row;
  readonly technicians: readonly Row[];
  readonly requests: readonly Row[];
}

const LINE = /^(\d+)\s+(-?[\d.]+)\s+(-?[\d.]+)\s+([\d.]+)\s+([\d.]+)\s+([\d.]+)\s+\[(.*?)\]\s+\[(.*?)\]\s+\[(.*?)\]/;

export function readTechnicians(text: string): TechniciansInstance {
  const lines = text.split(/\r?\n/);
  const crew = Number(lines[lines.findIndex((line) => line.startsWith('CREW')) + 1]?.trim().split(/\s+/)[0]);
  const rows = lines.flatMap((line): Row[] => {
    const found = LINE.exec(line);
    if (found === null) return [];
    const [x = 0, y = 0, from = 0, until = 0, service = 0] = found.slice(2, 7).map(Number);
    const [skills = [], tools = [], parts = []] = found.slice(7, 10).map(listOf);
    return [{ x, y, from, until, service, skills, tools, parts }];
  });
  const [depot, ...others] = rows;
  if (!Number.isInteger(crew)) throw new BadInput('The file has no line CREW with the number of technicians under it');
  if (depot === undefined || others.length <= crew)
    throw new BadInput(`The file has ${rows.length} places: a depot, ${crew} technicians and a request are needed at least`);
  return { name: lines[0]?.trim() ?? '', depot, technicians: others.slice(0, crew), requests: others.slice(crew) };
}

const listOf = (text: string): number[] => (text.trim() === '' ? [] : text.split(',').map(Number));
const bitsOf = (numbers: readonly number[]): number => numbers.reduce((bits, number) => bits | (1 << number), 0);

/** One slot a technician; a request may go to whoever has its skills. What it costs is the working time. */
export function problemOf({ depot, technicians, requests }: TechniciansInstance): RoutingProblem {
  const rows = [depot, ...technicians, ...requests];
  const kinds = Math.max(...rows.map(({ parts }) => parts.length));
  const crew = technicians.length;
  const minutes = Float64Array.from(rows.flatMap((one) => rows.map((two) => Math.hypot(one.x - two.x, one.y - two.y))));
  const able = requests.map(({ skills }) =>
    technicians.flatMap((technician, slot) => ((bitsOf(technician.skills) & bitsOf(skills)) === bitsOf(skills) ? [slot] : [])),
  );
  const offset = new Int32Array(requests.length + 1);
  for (const [visit, slots] of able.entries()) offset[visit + 1] = (offset[visit] as number) + slots.length;
  const perOption = (pick: (row: Row) => number) => Float64Array.from(requests.flatMap((row, visit) => (able[visit] ?? []).map(() => pick(row))));
  const amounts = (of: readonly Row[]) => Float64Array.from(of.flatMap(({ parts }) => Array.from({ length: kinds }, (_, kind) => parts[kind] ?? 0)));
  return {
    visits: {
      count: requests.length,
      node: Int32Array.from(requests, (_, visit) => 1 + crew + visit),
      serviceMinutes: Float64Array.from(requests, ({ service }) => service),
      unassignedCost: new Float64Array(requests.length).fill(10 * depot.until),
      locked: new Uint8Array(requests.length),
      second: new Int32Array(requests.length).fill(-1),
    },
    slots: {
      count: crew,
      startNode: Int32Array.from(technicians, (_, slot) => slot + 1),
      endNode: Int32Array.from(technicians, (_, slot) => slot + 1),
      from: Float64Array.from(technicians, ({ from }) => from),
      until: Float64Array.from(technicians, ({ until }) => until),
      regularUntil: Float64Array.from(technicians, ({ until }) => until),
      fixedCost: new Float64Array(crew),
      day: new Int32Array(crew),
      alike: new Int32Array(crew).fill(-1),
    },
    options: {
      offset,
      slot: Int32Array.from(able.flat()),
      from: perOption(({ from }) => from),
      until: perOption(({ until }) => until),
      cost: new Float64Array(able.flat().length),
    },
    travel: { nodes: rows.length, minutes, cost: null },
    minuteCost: 1,
    overtimeMinuteCost: 0,
    carried: {
      kinds,
      need: amounts(requests),
      needTools: Int32Array.from(requests, ({ tools }) => bitsOf(tools)),
      aboard: amounts(technicians),
      aboardTools: Int32Array.from(technicians, ({ tools }) => bitsOf(tools)),
      store: { node: 0, minutes: 0 },
    },
    nights: null,
  };
}
