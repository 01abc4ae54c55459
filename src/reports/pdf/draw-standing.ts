import { STANDING_LABELS, type Standing } from '../../shared/standing.js';
import { MARK_SIZE, MARK_STROKES, STANDING_MARKS } from '../../shared/standing-marks.js';
import { BODY } from './draw-text.js';
import { INKS, STANDING_INKS } from './inks.js';
import { linesOf } from './lines.js';
import { type Ink, LEADING, type Paper } from './paper.js';

const EDGE = 4;
const PAD = 8;

/** The silhouette of a standing in a square of so many points. */
function drawMark({ doc }: Paper, standing: Standing, x: number, y: number, size: number): void {
  const ink = STANDING_INKS[standing];
  doc.save();
  doc.translate(x, y).scale(size / MARK_SIZE);
  for (const { ink: kind, d, dash } of STANDING_MARKS[standing]) {
    doc.path(d);
    if (kind === 'fill') {
      doc.fill(ink);
      continue;
    }
    if (dash === undefined) doc.undash();
    else doc.dash(dash[0], { space: dash[1] });
    doc
      .lineWidth(MARK_STROKES[kind])
      .lineCap(kind === 'cut' ? 'round' : 'butt')
      .stroke(kind === 'cut' ? INKS.cut : ink);
  }
  doc.restore();
}

const wordInk = (standing: Standing, size: number): Ink => ({
  size,
  strong: standing === 'due' || standing === 'overdue',
  color: standing === 'steady' || standing === 'no-data' ? INKS.inkSoft : INKS.ink,
});

/** Width of a mark with its word. */
export const standingWidth = (paper: Paper, standing: Standing, size: number): number =>
  size * 1.4 + paper.measure(STANDING_LABELS[standing], wordInk(standing, size));

/** The mark with its word beside it: shape and colour alone say nothing. */
export function drawStanding(paper: Paper, standing: Standing, x: number, y: number, size: number): void {
  drawMark(paper, standing, x, y + size * 0.12, size);
  paper.line(STANDING_LABELS[standing], x + size * 1.4, y, wordInk(standing, size));
}

/** The box that says how it is and why. */
export function drawStandingBox(paper: Paper, standing: Standing, text: string): void {
  const inner = paper.width - EDGE - 2 * PAD;
  const lines = linesOf(paper, text, inner, BODY);
  const step = BODY.size * LEADING;
  const height = (lines.length + 1) * step + 2 * PAD;
  paper.need(height);
  const { y } = paper;
  paper.artifact(() => {
    paper.doc.rect(paper.left, y, EDGE, height).fill(STANDING_INKS[standing]);
    paper.doc.rect(paper.left, y, paper.width, height).lineWidth(0.5).stroke(INKS.line);
  });
  const x = paper.left + EDGE + PAD;
  paper.tag(paper.root, 'P', () => drawStanding(paper, standing, x, y + PAD, 10.5));
  paper.tag(paper.root, 'P', () => paper.lines(lines, x, y + PAD + step + 1, BODY));
  paper.down(height + 8);
}
