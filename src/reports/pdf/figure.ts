import { INKS } from './inks.js';
import type { Paper } from './paper.js';

/** Drawings are made in the pixels of the pages, four to three points. */
export const POINTS_A_PIXEL = 0.75;
const TEXT_SIZE = 12.5;

type Align = 'left' | 'right' | 'center';

/** Draws strokes, tints and labels in the pixels of a figure, by paths as SVG writes them. */
export interface FigureHand {
  stroke(path: string, ink: string, width: number, dash?: readonly number[], cap?: 'butt' | 'round'): void;
  tint(path: string, ink: string, share: number): void;
  /** A label by its base line; `onPaper`: with a ground of its own, over what is drawn */
  text(text: string, x: number, y: number, align: Align, how?: { color?: string; onPaper?: boolean }): void;
  /** A small plate for a number */
  plate(x: number, y: number, width: number, height: number): void;
  within(x: number, y: number, width: number, height: number, draw: () => void): void;
}

/** A drawing as wide as the paper that is one figure for those who hear it: `alt` says what it shows. */
export function drawInFigure(paper: Paper, { height, alt }: { height: number; alt: string }, draw: (hand: FigureHand, width: number) => void): void {
  const { doc, left, width } = paper;
  const tall = height * POINTS_A_PIXEL;
  paper.need(tall);
  const { y } = paper;
  paper.tag(
    paper.root,
    'Figure',
    () => {
      doc.save();
      doc.translate(left, y).scale(POINTS_A_PIXEL);
      draw(handOf(paper), width / POINTS_A_PIXEL);
      doc.restore();
    },
    { alt, bbox: [left, y, left + width, y + tall] },
  );
  paper.down(tall + 8);
}

function handOf(paper: Paper): FigureHand {
  const { doc } = paper;
  const hand: FigureHand = {
    stroke(path, ink, width, dash, cap = 'butt') {
      doc.path(path).lineWidth(width).lineJoin('round').lineCap(cap);
      if (dash === undefined) doc.undash();
      else doc.dash(dash[0] ?? 1, { space: dash[1] ?? 1 });
      if (dash !== undefined && dash.length > 2) doc.addContent(`[${dash.join(' ')}] 0 d`); // the library knows pairs only
      doc.stroke(ink);
    },
    tint(path, ink, share) {
      doc.save();
      doc.path(path).fillOpacity(share).fill(ink);
      doc.restore();
    },
    text(text, x, y, align, { color = INKS.inkSoft, onPaper = false } = {}) {
      const ink = { size: TEXT_SIZE, color };
      const width = paper.measure(text, ink);
      const from = align === 'left' ? x : align === 'right' ? x - width : x - width / 2;
      if (onPaper) {
        doc.save();
        doc
          .rect(from - 2, y - TEXT_SIZE * 0.8, width + 4, TEXT_SIZE)
          .fillOpacity(0.85)
          .fill(INKS.surface);
        doc.restore();
      }
      paper.use(ink);
      doc.text(text, from, y, { lineBreak: false, baseline: 'alphabetic' });
    },
    plate(x, y, width, height) {
      doc.roundedRect(x, y, width, height, 2).lineWidth(1).undash().fillAndStroke(INKS.surface, INKS.edge);
    },
    within(x, y, width, height, draw) {
      doc.save();
      doc.rect(x, y, width, height).clip();
      draw();
      doc.restore();
    },
  };
  return hand;
}
