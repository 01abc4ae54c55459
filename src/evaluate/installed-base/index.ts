import { quantileOf } from '../../store/core/demand/pmf/pmf.js';
import { levelForFill } from '../../store/core/policy/service.js';
import { BadInput, type Options, type Print, type Values } from '../evaluation.js';
import { type Fleet, fleetOf, ITEMS, SCORED_FROM } from './fleet.js';
import { type FleetKept, keepFleet } from './keep-fleet.js';
import { outlooksOf } from './outlooks.js';
import { byCondition, byTsb, byWindows, daily, type Needs } from './rules.js';

export const help = `
npm run evaluate -- installed-base [--fleets 8] [--seed 1]

Simulated fleets whose cartridges wear by day, season, site and storm: stock and the share of visits that find every part on the shelf, when orders follow what
was needed before and when they follow the outlooks of the fitted parts, corrected by the record of past outlooks and never by the truth. 40 skids, 8 items,
weekly review, lead times of 3 to 8 weeks, 5 years of which the last 3 count. Stock at a job fill lies on the mean curve of all fleets. All numbers of the
fleets are assumptions: the figures compare rules, they promise nothing.
`;

export const options: Options = { fleets: { type: 'string', default: '8' }, seed: { type: 'string', default: '1' } };

const NOMINALS = [0.6, 0.7, 0.8, 0.86, 0.9, 0.92, 0.94, 0.955, 0.965, 0.975, 0.985, 0.99, 0.995, 0.998, 0.999, 0.9995];
const ASKED = 0.955;
const FILLS = [0.9, 0.95, 0.98];

/** Storms a year, error of outlooks, by how much they are late. */
const CASES = [
  { storms: 6, error: 0.25, late: 1 },
  { storms: 6, error: 0.4, late: 1 },
  { storms: 6, error: 0.25, late: 1.25 },
  { storms: 0, error: 0.25, late: 1 },
];

export async function evaluate(values: Values, print: Print): Promise<void> {
  const [fleets, seed] = [numberOf(values, 'fleets'), numberOf(values, 'seed')];
  for (const { storms, error, late } of CASES) {
    const set = `${storms} storms a year, outlook error ${error * 100} %${late === 1 ? '' : `, ${Math.round((late - 1) * 100)} % late`}`;
    const curves = new Map<string, FleetKept[][]>();
    for (let at = 0; at < fleets; at++) {
      const of = seed * 1000 + at;
      const fleet = fleetOf(of, storms);
      const need = daily(fleet);
      const told = outlooksOf(fleet.lives, error, late, of + 500);
      const rules: [string, Needs][] = [
        ['TSB, negative binomial', byTsb(need)],
        ['windows of two years', byWindows(need)],
      ];
      // The simple methods may use whichever way of setting levels suits them better.
      for (const [method, needs] of rules) {
        add(curves, method, curveOf(fleet, levelsByFill(needs), of));
        add(curves, `${method}, by probability`, curveOf(fleet, levelsByProbability(needs, 1), of));
      }
      add(curves, 'ours', curveOf(fleet, levelsByProbability(byCondition(fleet, told, error, need), itemsOfVisit(fleet)), of));
    }
    printCase(print, set, curves, fleets);
  }
}

type LevelsByNominal = readonly (readonly (readonly number[])[])[];

/** By week, nominal and item: the same probability of having enough for each item, so that all items of a visit are there with the nominal one. */
const levelsByProbability = (needs: Needs, itemsOfOne: number): LevelsByNominal =>
  needs.map((ofWeek) => NOMINALS.map((nominal) => ofWeek.map(({ overBoth }) => quantileOf(overBoth, nominal ** (1 / itemsOfOne)))));

/** Items that a visit needed, on average of the years before those that count. */
function itemsOfVisit({ visits }: Fleet): number {
  const before = visits.filter(({ day }) => day < SCORED_FROM);
  return before.reduce((sum, { items }) => sum + items.length, 0) / Math.max(1, before.length);
}

/** By week, nominal and item: the same share of need served at once for each item. */
const levelsByFill = (needs: Needs): LevelsByNominal =>
  needs.map((ofWeek) => NOMINALS.map((nominal) => ofWeek.map(({ overLead, overBoth }) => levelForFill(overLead, overBoth, nominal))));

function curveOf(fleet: Fleet, levels: LevelsByNominal, seed: number): FleetKept[] {
  return NOMINALS.map((_, at) => keepFleet(fleet.visits, (week, item) => levels[week]?.[at]?.[item] ?? 0, seed + 900));
}

function add(curves: Map<string, FleetKept[][]>, method: string, curve: FleetKept[]): void {
  curves.set(method, [...(curves.get(method) ?? []), curve]);
}

function printCase(print: Print, set: string, curves: ReadonlyMap<string, readonly (readonly FleetKept[])[]>, n: number): void {
  const stockAt = (method: string, fill: number, of: readonly number[]) => atFill(meanCurve(curves.get(method) ?? [], of), fill);
  const all = Array.from({ length: n }, (_, at) => at);
  const simple = [...curves.keys()].filter((method) => method !== 'ours');
  const saving = (fill: number, of: readonly number[]) => {
    const known = simple.flatMap((method) => stockAt(method, fill, of) ?? []);
    const own = stockAt('ours', fill, of);
    return own === null || known.length === 0 ? null : 1 - own / Math.min(...known);
  };
  for (const fill of FILLS) {
    for (const method of curves.keys())
      print({ measure: 'stock_for_fill', value: round(stockAt(method, fill, all)), unit: `pieces of ${ITEMS} items`, method, set, at: fill, n });
    const single = all.flatMap((at) => saving(fill, [at]) ?? []);
    print({ measure: 'saving', value: round(saving(fill, all)), unit: 'share', method: 'ours', set, at: fill, n, fleets: single.map(round) });
  }
  for (const method of curves.keys()) {
    const reached = meanCurve(curves.get(method) ?? [], all)[NOMINALS.indexOf(ASKED)];
    print({
      measure: 'fill_at_nominal',
      value: round(reached?.jobFill ?? null),
      unit: 'share',
      method,
      set,
      at: ASKED,
      n,
      stock: round(reached?.stock ?? null),
    });
  }
}

function meanCurve(curves: readonly (readonly FleetKept[])[], of: readonly number[]): FleetKept[] {
  const mean = (values: readonly number[]) => values.reduce((sum, one) => sum + one, 0) / Math.max(1, values.length);
  return NOMINALS.map((_, at) => ({
    jobFill: mean(of.map((fleet) => curves[fleet]?.[at]?.jobFill ?? 0)),
    stock: mean(of.map((fleet) => curves[fleet]?.[at]?.stock ?? 0)),
  }));
}

function atFill(curve: readonly FleetKept[], fill: number): number | null {
  const above = curve.findIndex(({ jobFill }) => jobFill >= fill);
  const [low, high] = [curve[above - 1], curve[above]];
  if (high === undefined || low === undefined) return null;
  return low.stock + ((fill - low.jobFill) / (high.jobFill - low.jobFill)) * (high.stock - low.stock);
}

const round = (value: number | null) => (value === null ? null : Math.round(value * 1e4) / 1e4);

function numberOf(values: Values, name: string): number {
  const number = Number(values[name]);
  if (!Number.isInteger(number) || number < 1) throw new BadInput(`--${name} must be a whole number from 1 on, not "${String(values[name])}"`);
  return number;
}
