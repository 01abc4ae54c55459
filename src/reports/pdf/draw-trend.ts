import { axisDate, number, wallDay } from '../../shared/format.js';
import { drawTrend, flagBox, levelDigits, type TrendBox, type TrendDrawing } from '../../shared/trend.js';
import type { TrendBlock } from '../core/document.js';
import { drawKey, drawParagraph } from './draw-text.js';
import { drawInFigure, type FigureHand, POINTS_A_PIXEL } from './figure.js';
import { BAND_SHARE, INKS } from './inks.js';
import type { Paper } from './paper.js';

const HEIGHT = 236;
/** Sentence and drawing, in points. */
export const TREND_ROOM = HEIGHT * POINTS_A_PIXEL + 34;
const MARGINS = { left: 46, right: 10, top: 22, bottom: 24 };

/** One quantity over time with its limit and forecast, as on the page: the sentence first, then the drawing, then the key of its events. */
export function drawTrendBlock(paper: Paper, block: TrendBlock): void {
  paper.need(TREND_ROOM);
  drawParagraph(paper, block.sentence);
  const alt = `${block.title}, ${block.unit}. ${block.sentence}`;
  drawInFigure(paper, { height: HEIGHT, alt }, (hand, width) => {
    const box: TrendBox = { width, height: HEIGHT, ...MARGINS };
    const drawing = drawTrend(block.trend, block.span, box);
    drawAxes(hand, drawing, box, block.span.toMs - block.span.fromMs);
    drawSeries(hand, drawing, box);
    drawFlags(hand, drawing, box);
    drawLevelsOf(hand, drawing, box, block);
    drawCrossing(hand, drawing);
  });
  if (block.trend.events.length > 0)
    drawKey(
      paper,
      block.trend.events.map(({ atMs, label }) => `${wallDay(atMs)}: ${label}`),
    );
}

function drawAxes(hand: FigureHand, { levels, dates }: TrendDrawing, box: TrendBox, spanMs: number): void {
  const floor = box.height - box.bottom;
  const edge = box.width - box.right;
  const digits = levelDigits(levels);
  for (const { y, value } of levels) {
    hand.stroke(`M${box.left} ${y.toFixed(1)}H${edge}`, INKS.line, 1);
    hand.text(number(value, digits), box.left - 6, y + 4, 'right');
  }
  hand.stroke(`M${box.left} ${floor}H${edge}`, INKS.edge, 1);
  for (const { x, atMs } of dates) {
    hand.stroke(`M${x.toFixed(1)} ${floor}v4`, INKS.edge, 1);
    hand.text(axisDate(atMs, spanMs), x, floor + 16, x > edge - 24 ? 'right' : 'center');
  }
}

/** Measured solid, forecast in long dashes on a tint with a dotted rim. */
function drawSeries(hand: FigureHand, { band, line, dots, mid }: TrendDrawing, box: TrendBox): void {
  hand.within(box.left, box.top, box.width - box.right - box.left, box.height - box.bottom - box.top, () => {
    if (band !== '') {
      hand.tint(band, INKS.data, BAND_SHARE);
      hand.stroke(band, INKS.data, 0.75, [2, 3]);
    }
    if (line !== '') hand.stroke(line, INKS.data, 1.5);
    if (dots !== '') hand.stroke(dots, INKS.data, 4, undefined, 'round');
    if (mid !== '') hand.stroke(mid, INKS.data, 2, [7, 4]);
  });
}

/** The limit dash-dot and the baseline dotted, each with its name on the line. */
function drawLevelsOf(hand: FigureHand, { baselineY, limitY }: TrendDrawing, box: TrendBox, block: TrendBlock): void {
  const edge = box.width - box.right;
  if (baselineY !== null) {
    hand.stroke(`M${box.left} ${baselineY.toFixed(1)}H${edge}`, INKS.edge, 1, [1, 4]);
    hand.text(block.baselineLabel, edge - 4, baselineY - 5, 'right', { color: INKS.inkSoft, onPaper: true });
  }
  if (limitY === null) return;
  hand.stroke(`M${box.left} ${limitY.toFixed(1)}H${edge}`, INKS.ink, 1.25, [10, 3, 2, 3]);
  hand.text(block.limitLabel, box.left + 4, limitY - 5, 'left', { color: INKS.ink, onPaper: true });
}

function drawFlags(hand: FigureHand, { flags }: TrendDrawing, box: TrendBox): void {
  for (const flag of flags) {
    const { label, x, width } = flagBox(flag);
    for (const each of flag.xs) hand.stroke(`M${each.toFixed(1)} ${box.top}V${box.height - box.bottom}`, INKS.edge, 1, [2, 3]);
    hand.plate(x, box.top - 15, width, 14);
    hand.text(label, x + width / 2, box.top - 4, 'center', { color: INKS.ink });
  }
}

/** A diamond on the limit where it is expected to be met, with the early and the late end. */
function drawCrossing(hand: FigureHand, { crossing }: TrendDrawing): void {
  if (crossing === null) return;
  const { earlyX, likelyX, lateX, y } = crossing;
  const [early, late] = [earlyX.toFixed(1), lateX.toFixed(1)];
  hand.stroke(`M${early} ${y - 5}v10M${late} ${y - 5}v10M${early} ${y}H${late}`, INKS.due, 2);
  const diamond = `M${likelyX.toFixed(1)} ${y - 7}l6 7-6 7-6-7Z`;
  hand.tint(diamond, INKS.due, 1);
  hand.stroke(diamond, INKS.surface, 1.5);
}
