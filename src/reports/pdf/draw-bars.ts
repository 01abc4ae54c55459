import { number } from '../../shared/format.js';
import { type Bars, drawBars } from '../core/bars.js';
import { drawInFigure, POINTS_A_PIXEL } from './figure.js';
import { INKS } from './inks.js';
import type { Paper } from './paper.js';

const HEIGHT = 150;
export const BARS_ROOM = HEIGHT * POINTS_A_PIXEL;
const MARGINS = { left: 56, right: 10, top: 14, bottom: 22 };

/** Columns from zero, with the unit above the axis. */
export function drawBarsBlock(paper: Paper, bars: Bars, alt: string): void {
  drawInFigure(paper, { height: HEIGHT, alt }, (hand, width) => {
    const box = { width, height: HEIGHT, ...MARGINS };
    const floor = box.height - box.bottom;
    const drawing = drawBars(bars, box);
    for (const { y, value } of drawing.levels) {
      hand.stroke(`M${box.left} ${y.toFixed(1)}H${width - box.right}`, INKS.line, 1);
      hand.text(number(value), box.left - 6, y + 4, 'right');
    }
    for (const bar of drawing.bars) hand.tint(`M${bar.x} ${bar.y}h${bar.width}v${bar.height}h${-bar.width}Z`, INKS.data, 1);
    hand.stroke(`M${box.left} ${floor}H${width - box.right}`, INKS.edge, 1);
    for (const { x, text } of drawing.labels) hand.text(text, x, floor + 16, 'center');
    hand.text(bars.unit, box.left - 6, box.top - 4, 'right');
  });
}
