import { ticks as niceTicks } from 'd3-array';
import { utcTicks } from 'd3-time';
import { thin } from './thin.js';

const DAY_MS = 86_400_000;
/** A forecast that runs away may stretch the scale by at most this share; more would press the measured part flat. */
const FORECAST_ROOM = 0.15;
const MARGIN = 0.06;
const PIXELS_A_DATE = 110;
const PIXELS_A_VALUE = 48;
/** Events closer than the widest flag share one */
const FLAG_WIDTH = 48;

export interface ForecastPoint {
  readonly atMs: number;
  readonly low: number;
  readonly mid: number;
  readonly high: number;
}

/** A daily series as it is drawn. Times are the wall clock of the site, counted as if it were UTC, so that every day is as long. */
export interface Trend {
  readonly firstDayMs: number;
  /** Day by day; null where nothing was measured */
  readonly values: readonly (number | null)[];
  readonly forecast: readonly ForecastPoint[];
  readonly limit: number | null;
  readonly baseline: number | null;
  /** When the limit is expected to be met; a late end that is not known is open */
  readonly crossing: { readonly earlyMs: number; readonly likelyMs: number; readonly lateMs: number | null } | null;
  readonly events: readonly { readonly atMs: number; readonly label: string }[];
}

export interface TrendSpan {
  readonly fromMs: number;
  readonly toMs: number;
}

/** The paper: outer size and the margins that hold the labels, px. */
export interface TrendBox {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Events by their numbers: one, or several too close to be told apart. */
export interface Flag {
  readonly xs: readonly number[];
  readonly first: number;
  readonly last: number;
}

/** Paths and places in pixels, for the page and for print alike. */
export interface TrendDrawing {
  readonly line: string;
  /** Days with a value between two days without */
  readonly dots: string;
  readonly band: string;
  readonly mid: string;
  readonly dates: readonly { readonly x: number; readonly atMs: number }[];
  readonly levels: readonly { readonly y: number; readonly value: number }[];
  readonly limitY: number | null;
  readonly baselineY: number | null;
  readonly crossing: { readonly earlyX: number; readonly likelyX: number; readonly lateX: number; readonly y: number } | null;
  readonly flags: readonly Flag[];
  readonly xAt: (atMs: number) => number;
  readonly msAt: (x: number) => number;
}

/**
 * Draws a trend with its limit and its forecast into a box.
 *
 * Behaviour at the edges: a span without values still draws axis, limit and forecast; without any number the scale is 0 to 1.
 */
export function drawTrend(trend: Trend, span: TrendSpan, box: TrendBox): TrendDrawing {
  const width = Math.max(1, box.width - box.left - box.right);
  const height = Math.max(1, box.height - box.top - box.bottom);
  const lengthMs = Math.max(1, span.toMs - span.fromMs);
  const xAt = (atMs: number) => box.left + ((atMs - span.fromMs) / lengthMs) * width;
  const isShown = (atMs: number) => atMs >= span.fromMs && atMs <= span.toMs;

  const from = Math.max(0, Math.ceil((span.fromMs - trend.firstDayMs) / DAY_MS));
  const to = Math.max(from, Math.min(trend.values.length, Math.floor((span.toMs - trend.firstDayMs) / DAY_MS) + 1));
  const forecast = trend.forecast.filter((point) => isShown(point.atMs));
  const [bottom, top] = scaleOf(trend, trend.values.slice(from, to), forecast);
  const yAt = (value: number) => box.top + (1 - (value - bottom) / (top - bottom)) * height;
  const spot = (atMs: number, value: number) => `${xAt(atMs).toFixed(1)} ${yAt(value).toFixed(1)}`;

  const runs = thin(trend.values, from, to, Math.floor(width)).map((run) => run.map((day) => spot(trend.firstDayMs + day * DAY_MS, trend.values[day] ?? 0)));
  const upper = forecast.map((point) => spot(point.atMs, point.high));
  const lower = forecast.map((point) => spot(point.atMs, point.low)).reverse();
  const { crossing, limit } = trend;

  return {
    line: runs
      .filter((run) => run.length > 1)
      .map(path)
      .join(''),
    dots: runs
      .filter((run) => run.length === 1)
      .map((run) => `${path(run)}h0`)
      .join(''),
    band: forecast.length > 1 ? `${path([...upper, ...lower])}Z` : '',
    mid: forecast.length > 1 ? path(forecast.map((point) => spot(point.atMs, point.mid))) : '',
    dates: utcTicks(new Date(span.fromMs), new Date(span.toMs), Math.max(2, Math.round(width / PIXELS_A_DATE))).map((date) => ({ x: xAt(+date), atMs: +date })),
    levels: niceTicks(bottom, top, Math.max(2, Math.round(height / PIXELS_A_VALUE))).map((value) => ({ y: yAt(value), value })),
    limitY: limit === null ? null : yAt(limit),
    baselineY: trend.baseline === null ? null : yAt(trend.baseline),
    crossing:
      crossing === null || limit === null || !isShown(crossing.likelyMs)
        ? null
        : {
            earlyX: Math.max(box.left, xAt(crossing.earlyMs)),
            likelyX: xAt(crossing.likelyMs),
            lateX: Math.min(box.left + width, crossing.lateMs === null ? Number.POSITIVE_INFINITY : xAt(crossing.lateMs)),
            y: yAt(limit),
          },
    flags: flagsOf(trend.events.flatMap((event, index) => (isShown(event.atMs) ? [{ x: xAt(event.atMs), number: index + 1 }] : []))),
    xAt,
    msAt: (x) => span.fromMs + ((x - box.left) / width) * lengthMs,
  };
}

/** Lowest and highest value of the scale: what was measured, the limit and the baseline, and some room for the forecast. */
function scaleOf({ limit, baseline }: Trend, values: readonly (number | null)[], forecast: readonly ForecastPoint[]): [number, number] {
  const measured = [...values, limit, baseline].filter((value) => value !== null);
  const all = measured.length > 0 ? measured : forecast.map((point) => point.mid);
  const [low, high] = all.reduce<[number, number]>(([least, most], value) => [Math.min(least, value), Math.max(most, value)], [Infinity, -Infinity]);
  if (low === Infinity) return [0, 1];
  const room = (high - low || Math.abs(high) || 1) * FORECAST_ROOM;
  const bottom = Math.max(low - room, Math.min(low, ...forecast.map((point) => point.low)));
  const top = Math.min(high + room, Math.max(high, ...forecast.map((point) => point.high)));
  const margin = (top - bottom || Math.abs(top) || 1) * MARGIN;
  return [bottom - margin, top + margin];
}

function flagsOf(events: readonly { x: number; number: number }[]): Flag[] {
  const flags: { xs: [number, ...number[]]; first: number; last: number }[] = [];
  for (const { x, number } of events) {
    const flag = flags.at(-1);
    if (flag !== undefined && x - flag.xs[0] < FLAG_WIDTH) {
      flag.xs.push(x);
      flag.last = number;
    } else flags.push({ xs: [x], first: number, last: number });
  }
  return flags;
}

/** The label of a flag and where it stands above the plot; it begins a little left of the first event. */
export function flagBox({ xs, first, last }: Flag): { readonly label: string; readonly x: number; readonly width: number } {
  const label = first === last ? `${first}` : `${first}–${last}`;
  return { label, x: (xs[0] ?? 0) - 8, width: 9 + 7 * label.length };
}

/** As many decimals as the steps of the axis need. */
export function levelDigits(levels: TrendDrawing['levels']): number {
  const [first, second] = levels;
  const step = first && second ? Math.abs(second.value - first.value) : 1;
  return step >= 1 ? 0 : Math.min(3, Math.ceil(-Math.log10(step) - 1e-9));
}

const path = (spots: readonly string[]) => `M${spots.join('L')}`;
