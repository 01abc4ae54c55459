export interface ForecastBox {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** What is drawn of a stock card: days as local dates. */
export interface ForecastOf {
  readonly past: readonly { readonly day: string; readonly onHand: number }[];
  readonly ahead: readonly { readonly day: string; readonly expected: number; readonly low: number }[];
  readonly arrivals: readonly { readonly day: string }[];
  readonly expiries: readonly { readonly day: string }[];
  readonly point: number;
}

/** Paths and places of the balance over time, in pixels. */
export interface ForecastDrawing {
  readonly past: string;
  readonly expected: string;
  /** Between what is expected and what is left at high need */
  readonly band: string;
  readonly pointY: number;
  readonly todayX: number;
  readonly arrivals: readonly number[];
  readonly expiries: readonly number[];
  readonly levels: readonly { readonly value: number; readonly y: number }[];
  readonly dates: readonly { readonly atMs: number; readonly x: number }[];
  readonly spanMs: number;
}

const LEVELS = 4;
const MS_PER_DAY = 86_400_000;
const PX_PER_DATE = 90;

const msOf = (day: string) => Date.parse(`${day}T00:00:00Z`);

/** Draws the balance by day, in steps where it was counted and as a line where it is expected; null without two days. */
export function drawForecast({ past, ahead, arrivals, expiries, point }: ForecastOf, box: ForecastBox): ForecastDrawing | null {
  const days = [...past, ...ahead].map(({ day }) => msOf(day));
  const [fromMs, toMs] = [Math.min(...days), Math.max(...days)];
  if (days.length < 2 || toMs <= fromMs) return null;
  const reach = Math.max(1, point, ...past.map(({ onHand }) => onHand), ...ahead.map(({ expected }) => expected));
  const step = niceStep(reach / LEVELS);
  const most = Math.ceil(reach / step) * step;
  const x = (ms: number) => box.left + ((ms - fromMs) / (toMs - fromMs)) * (box.width - box.left - box.right);
  const y = (pieces: number) => box.top + ((most - Math.min(most, Math.max(0, pieces))) / most) * (box.height - box.top - box.bottom);
  const path = (points: readonly (readonly [number, number])[]) =>
    points.map(([px, py], n) => `${n === 0 ? 'M' : 'L'}${px.toFixed(1)} ${py.toFixed(1)}`).join('');
  const steps = past.flatMap(({ day, onHand }, n) => {
    const before = past[n - 1];
    return [...(before === undefined ? [] : [[x(msOf(day)), y(before.onHand)] as const]), [x(msOf(day)), y(onHand)] as const];
  });
  const expected = ahead.map(({ day, expected: pieces }) => [x(msOf(day)), y(pieces)] as const);
  const low = ahead.map(({ day, low: pieces }) => [x(msOf(day)), y(pieces)] as const);
  const within = (of: readonly { readonly day: string }[]) => of.map(({ day }) => msOf(day)).filter((ms) => ms >= fromMs && ms <= toMs);
  return {
    past: path(steps),
    expected: path(expected),
    band: expected.length === 0 ? '' : `${path([...expected, ...low.toReversed()])}Z`,
    pointY: y(point),
    todayX: x(msOf((past.at(-1) ?? ahead[0])?.day ?? '')),
    arrivals: within(arrivals).map(x),
    expiries: within(expiries).map(x),
    levels: Array.from({ length: Math.round(most / step) + 1 }, (_, n) => ({ value: n * step, y: y(n * step) })),
    dates: datesOf(fromMs, toMs, box.width).map((atMs) => ({ atMs, x: x(atMs) })),
    spanMs: toMs - fromMs,
  };
}

/** Pieces are whole: no level lies between two. */
function niceStep(raw: number): number {
  const power = 10 ** Math.max(0, Math.floor(Math.log10(raw)));
  return ([1, 2, 5, 10].find((factor) => factor * power >= raw) ?? 10) * power;
}

function datesOf(fromMs: number, toMs: number, width: number): number[] {
  const most = Math.max(2, Math.floor(width / PX_PER_DATE));
  const stepMs = Math.max(7, Math.ceil((toMs - fromMs) / MS_PER_DAY / most)) * MS_PER_DAY;
  return Array.from({ length: most + 1 }, (_, n) => fromMs + n * stepMs).filter((ms) => ms <= toMs);
}
