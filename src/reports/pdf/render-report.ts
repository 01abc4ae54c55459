import type { Block, ReportDocument } from '../core/document.js';
import { drawBarsBlock } from './draw-bars.js';
import { drawPhotographs } from './draw-photographs.js';
import { drawStandingBox } from './draw-standing.js';
import { drawTable } from './draw-table.js';
import { drawFacts, drawHeading, drawList, drawParagraph, drawTitle } from './draw-text.js';
import { drawTrendBlock } from './draw-trend.js';
import { Paper } from './paper.js';

/** A report as a tagged PDF, A4. */
export async function renderReport(report: ReportDocument): Promise<Buffer> {
  const paper = new Paper(report);
  drawTitle(paper, report.place, report.title, 'H1');
  for (const block of report.blocks) drawBlock(paper, block);
  return paper.finish(report.running, report.made);
}

type DrawBlock<Kind extends Block['kind']> = (paper: Paper, block: Extract<Block, { kind: Kind }>) => void;

const DRAW: { readonly [Kind in Block['kind']]: DrawBlock<Kind> } = {
  heading: (paper, { level, text }) => drawHeading(paper, level, text),
  paragraph: (paper, { text, tone }) => drawParagraph(paper, text, tone),
  list: (paper, { items, numbered }) => drawList(paper, items, numbered === true),
  standing: (paper, { standing, text }) => drawStandingBox(paper, standing, text),
  facts: (paper, { facts }) => drawFacts(paper, facts),
  table: drawTable,
  trend: drawTrendBlock,
  bars: (paper, { bars, alt }) => drawBarsBlock(paper, bars, alt),
  photographs: (paper, { photographs }) => drawPhotographs(paper, photographs),
  part(paper, { place, title }) {
    if (!paper.isAtTop) paper.newPage();
    drawTitle(paper, place, title, 'H2');
  },
};

const drawBlock = (paper: Paper, block: Block): void => (DRAW[block.kind] as (paper: Paper, block: Block) => void)(paper, block);
