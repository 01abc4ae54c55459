import type { Schemas } from '../api/client.js';

type Point = Schemas['BookPointView'];

export interface BalanceBox {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Paths and places of the running balance of a tank, in pixels. */
export interface BalanceDrawing {
  /** One for each run of the books */
  readonly line: string;
  /** Between the limits, around 0 */
  readonly band: string;
  readonly dots: readonly { readonly x: number; readonly y: number; readonly signal: boolean; readonly fits: boolean }[];
  readonly levels: readonly { readonly value: number; readonly y: number }[];
  readonly dates: readonly { readonly atMs: number; readonly x: number }[];
}

const LEVELS = 5;
const MS_PER_DAY = 86_400_000;

/** Draws the balance with its limits; `null` for fewer than two dips. */
export function drawBalance(points: readonly Point[], box: BalanceBox): BalanceDrawing | null {
  const at = points.map((point) => Date.parse(point.at));
  const [fromMs, toMs] = [at[0], at.at(-1)];
  if (fromMs === undefined || toMs === undefined || toMs <= fromMs) return null;
  const reach = Math.max(...points.map(({ cumulativeL, limitL }) => Math.max(Math.abs(cumulativeL), limitL)), 1);
  const step = niceStep((2 * reach) / LEVELS);
  const most = Math.ceil(reach / step) * step;
  const x = (ms: number) => box.left + ((ms - fromMs) / (toMs - fromMs)) * (box.width - box.left - box.right);
  const y = (litres: number) => box.top + ((most - litres) / (2 * most)) * (box.height - box.top - box.bottom);
  const runs = runsOf(points);
  const path = (list: readonly (readonly [number, number])[]) => list.map(([px, py], n) => `${n === 0 ? 'M' : 'L'}${px.toFixed(1)} ${py.toFixed(1)}`).join('');
  const band = runs.map((run) => {
    const upper = run.map((n) => [x(at[n] ?? 0), y(points[n]?.limitL ?? 0)] as const);
    const lower = run.map((n) => [x(at[n] ?? 0), y(-(points[n]?.limitL ?? 0))] as const).reverse();
    return `${path([...upper, ...lower])}Z`;
  });
  return {
    line: runs.map((run) => path(run.map((n) => [x(at[n] ?? 0), y(points[n]?.cumulativeL ?? 0)] as const))).join(''),
    band: band.join(''),
    dots: points.map(({ cumulativeL, signal, fits }, n) => ({ x: x(at[n] ?? 0), y: y(cumulativeL), signal: signal !== null, fits })),
    levels: Array.from({ length: Math.round((2 * most) / step) + 1 }, (_, n) => ({ value: n * step - most, y: y(n * step - most) })),
    dates: datesOf(fromMs, toMs, box.width).map((atMs) => ({ atMs, x: x(atMs) })),
  };
}

/** The books begin anew where a dip does not fit or nobody knows the use: there the balance is 0 again. */
function runsOf(points: readonly Point[]): number[][] {
  const runs: number[][] = [];
  for (const [n, { observedL, expectedL, fits }] of points.entries()) {
    const run = runs.at(-1);
    if (run === undefined || observedL === null || expectedL === null || !fits) runs.push([n]);
    else run.push(n);
  }
  return runs;
}

function niceStep(raw: number): number {
  const power = 10 ** Math.floor(Math.log10(raw));
  return ([1, 2, 5, 10].find((factor) => factor * power >= raw) ?? 10) * power;
}

/** The first of months, or of every so many days where the record is short. */
function datesOf(fromMs: number, toMs: number, width: number): number[] {
  const most = Math.max(2, Math.floor(width / 90));
  const stepDays = Math.max(7, Math.ceil((toMs - fromMs) / MS_PER_DAY / most));
  const first = Math.ceil(fromMs / MS_PER_DAY) * MS_PER_DAY;
  return Array.from({ length: most + 1 }, (_, n) => first + n * stepDays * MS_PER_DAY).filter((ms) => ms <= toMs);
}
