import { ticks } from 'd3-array';

/** One column a month, as far as it is known. */
export interface Bars {
  readonly unit: string;
  readonly columns: readonly { readonly label: string; readonly value: number | null }[];
}

export interface BarsBox {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

interface BarsDrawing {
  readonly bars: readonly { readonly x: number; readonly y: number; readonly width: number; readonly height: number }[];
  readonly labels: readonly { readonly x: number; readonly text: string }[];
  readonly levels: readonly { readonly y: number; readonly value: number }[];
}

const WIDEST = 44;
const SHARE = 0.7;
const LABEL_WIDTH = 44;
const PIXELS_A_LEVEL = 40;

/**
 * Draws columns that begin at zero into a box: water of each month.
 *
 * Behaviour at the edges: an unknown month has no column, but its place and label; where labels would touch, every second, third … is left out.
 *
 * @example drawBars({ unit: 'm³', columns: [{ label: 'Jan', value: 10 }, { label: 'Feb', value: null }] }, { width: 100, height: 60, left: 0, right: 0, top: 0, bottom: 0 }).bars // => [{ "x": 7.5, "y": 0, "width": 35, "height": 60 }]
 */
export function drawBars({ columns }: Bars, box: BarsBox): BarsDrawing {
  const width = box.width - box.left - box.right;
  const height = box.height - box.top - box.bottom;
  const slot = width / Math.max(1, columns.length);
  const barWidth = Math.min(WIDEST, slot * SHARE);
  const top = Math.max(...columns.map(({ value }) => value ?? 0), 0) || 1;
  const every = Math.max(1, Math.ceil(LABEL_WIDTH / slot));
  const middle = (at: number) => box.left + (at + 0.5) * slot;
  return {
    bars: columns.flatMap(({ value }, at) => {
      if (value === null) return [];
      const tall = (value / top) * height;
      return [{ x: middle(at) - barWidth / 2, y: box.top + height - tall, width: barWidth, height: tall }];
    }),
    labels: columns.flatMap(({ label }, at) => (at % every === 0 ? [{ x: middle(at), text: label }] : [])),
    levels: ticks(0, top, Math.max(2, Math.round(height / PIXELS_A_LEVEL))).map((value) => ({ y: box.top + (1 - value / top) * height, value })),
  };
}
