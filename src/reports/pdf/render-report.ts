import type { Block, ReportDocument } from '../core/document.js';
import { BARS_ROOM, drawBarsBlock } from './draw-bars.js';
import { drawPhotographs, PHOTOGRAPHS_ROOM } from './draw-photographs.js';
import { drawStandingBox } from './draw-standing.js';
import { drawTable } from './draw-table.js';
import { drawFacts, drawHeading, drawList, drawParagraph, drawTitle } from './draw-text.js';
import { drawTrendBlock, TREND_ROOM } from './draw-trend.js';
import { Paper } from './paper.js';

const LINES_ROOM = 64;
const HEADING_ROOM = 30;
const PART_GAP = 20;
const PART_ROOM = 140;

/** A report as a tagged PDF, A4. */
export async function renderReport(report: ReportDocument): Promise<Buffer> {
  const paper = new Paper(report);
  drawTitle(paper, report.place, report.title, 'H1');
  let depth: 0 | 1 = 0; // within a part, which has the level of a heading itself, headings lie one deeper
  for (const [at, block] of report.blocks.entries()) {
    if (block.kind === 'part') depth = 1;
    if (block.kind === 'heading') drawHeading(paper, { ...block, depth, following: roomFor(report.blocks.slice(at + 1, at + 3)) });
    else drawBlock(paper, block);
  }
  return paper.finish(report.running, report.made);
}

/** How much of what follows a heading must stand on its page. */
function roomFor([first, second]: readonly Block[]): number {
  if (first?.kind === 'trend') return TREND_ROOM;
  if (first?.kind === 'photographs') return PHOTOGRAPHS_ROOM;
  if (first?.kind === 'heading') return HEADING_ROOM + roomFor(second === undefined ? [] : [second]);
  if (first?.kind === 'paragraph' && second?.kind === 'bars') return LINES_ROOM + BARS_ROOM;
  return LINES_ROOM;
}

type DrawBlock<Kind extends Block['kind']> = (paper: Paper, block: Extract<Block, { kind: Kind }>) => void;

const DRAW: { readonly [Kind in Exclude<Block['kind'], 'heading'>]: DrawBlock<Kind> } = {
  paragraph: (paper, { text, tone }) => drawParagraph(paper, text, tone),
  list: (paper, { items }) => drawList(paper, items),
  standing: (paper, { standing, text }) => drawStandingBox(paper, standing, text),
  facts: (paper, { facts }) => drawFacts(paper, facts),
  table: drawTable,
  trend: drawTrendBlock,
  bars: (paper, { bars, alt }) => drawBarsBlock(paper, bars, alt),
  photographs: (paper, { photographs }) => drawPhotographs(paper, photographs),
  part(paper, { place, title, goesOn }) {
    paper.gap(PART_GAP);
    paper.need(goesOn === true ? PART_ROOM : Number.POSITIVE_INFINITY);
    drawTitle(paper, place, title, 'H2');
  },
};

function drawBlock(paper: Paper, block: Exclude<Block, { kind: 'heading' }>): void {
  (DRAW[block.kind] as (paper: Paper, block: Block) => void)(paper, block);
}
