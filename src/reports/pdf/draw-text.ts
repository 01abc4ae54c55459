import type { Fact, Tone } from '../core/document.js';
import { INKS } from './inks.js';
import { linesOf } from './lines.js';
import { type Ink, LEADING, type Paper } from './paper.js';

export const BODY: Ink = { size: 9.5 };
const STYLES: Record<Tone | 'body', Ink> = {
  body: BODY,
  lead: { size: 11 },
  soft: { size: 8.5, color: INKS.inkSoft },
  caution: { size: 9.5, strong: true },
};
const HEADINGS = { H1: { size: 19, strong: true }, H2: { size: 13, strong: true }, H3: { size: 10.5, strong: true } } as const;
const PART: Ink = { size: 16, strong: true };
const KEY: Ink = { size: 8.5 };
const INDENT = 14;

export function drawTitle(paper: Paper, place: string, title: string, heading: 'H1' | 'H2'): void {
  flow(paper, 'P', place, { size: 9.5, color: INKS.inkSoft });
  flow(paper, heading, title, heading === 'H1' ? HEADINGS.H1 : PART);
  paper.down(4);
}

interface Heading {
  readonly level: 2 | 3;
  readonly text: string;
  /** How much deeper it lies in the structure than it looks */
  readonly depth: 0 | 1;
  /** A heading at the foot of a page with nothing below it is worse than a gap: it stays with so much of what follows */
  readonly following: number;
}

export function drawHeading(paper: Paper, { level, text, depth, following }: Heading): void {
  const ink = level === 2 ? HEADINGS.H2 : HEADINGS.H3;
  paper.gap(level === 2 ? 16 : 10);
  paper.need(ink.size * LEADING + 6 + following);
  flow(paper, `H${level + depth}`, text, ink);
  if (level === 2) {
    const y = paper.y + 1;
    paper.artifact(() => {
      paper.doc
        .moveTo(paper.left, y)
        .lineTo(paper.left + paper.width, y)
        .lineWidth(0.75)
        .stroke(INKS.edge);
    });
    paper.down(2);
  }
  paper.down(3);
}

export function drawParagraph(paper: Paper, text: string, tone?: Tone): void {
  flow(paper, 'P', text, STYLES[tone ?? 'body']);
  paper.down(4);
}

/** Text from here on, over as many pages as it takes, as one element. */
function flow(paper: Paper, type: string, text: string, ink: Ink): void {
  const element = paper.element(paper.root, type);
  for (const line of linesOf(paper, text, paper.width, ink)) {
    paper.need(ink.size * LEADING);
    const { y } = paper;
    element.add(() => paper.line(line, paper.left, y, ink));
    paper.down(ink.size * LEADING);
  }
  element.end();
}

export function drawList(paper: Paper, items: readonly string[]): void {
  const list = paper.element(paper.root, 'L');
  for (const item of items) {
    const entry = paper.element(list, 'LI');
    const lines = linesOf(paper, item, paper.width - INDENT, BODY);
    paper.need(Math.min(lines.length, 3) * BODY.size * LEADING);
    const { y } = paper;
    paper.tag(entry, 'Lbl', () => paper.line('•', paper.left, y, { ...BODY, color: INKS.inkSoft }));
    const body = paper.element(entry, 'LBody');
    for (const line of lines) {
      paper.need(BODY.size * LEADING);
      const lineY = paper.y;
      body.add(() => paper.line(line, paper.left + INDENT, lineY, BODY));
      paper.down(BODY.size * LEADING);
    }
    body.end();
    entry.end();
    paper.down(1.5);
  }
  list.end();
  paper.down(4);
}

/** What the numbers in a drawing mean, in two columns where there are more than a few; read down the first, then the second. */
export function drawKey(paper: Paper, items: readonly string[]): void {
  const columns = items.length > 4 ? 2 : 1;
  const width = paper.width / columns;
  const list = paper.element(paper.root, 'L');
  const rows = Math.ceil(items.length / columns);
  const cells = items.map((item) => linesOf(paper, item, width - INDENT - 10, KEY));
  const heights = Array.from({ length: rows }, (_, row) => Math.max(...[row, row + rows].map((at) => cells[at]?.length ?? 0)) * KEY.size * LEADING + 1);
  paper.need(
    Math.min(
      heights.reduce((sum, each) => sum + each, 0),
      paper.floor - paper.top,
    ),
  );
  const { y } = paper;
  for (const [at, lines] of cells.entries()) {
    const row = at % rows;
    const x = paper.left + Math.floor(at / rows) * width;
    const top = y + heights.slice(0, row).reduce((sum, each) => sum + each, 0);
    const entry = paper.element(list, 'LI');
    paper.tag(entry, 'Lbl', () => paper.line(`${at + 1}`, x, top, { ...KEY, color: INKS.inkSoft }));
    paper.tag(entry, 'LBody', () => paper.lines(lines, x + INDENT, top, KEY));
    entry.end();
  }
  list.end();
  paper.down(heights.reduce((sum, each) => sum + each, 0) + 4);
}

/** Names and values in two columns of pairs: a table whose rows have a head each. */
export function drawFacts(paper: Paper, facts: readonly Fact[]): void {
  const table = paper.element(paper.root, 'Table');
  const column = paper.width / 2;
  const nameInk = { size: 8.5, color: INKS.inkSoft };
  const nameWidth = Math.min(column * 0.45, Math.max(0, ...facts.map(([name]) => paper.measure(name, nameInk))) + 10);
  for (let first = 0; first < facts.length; first += 2) {
    const pair = facts.slice(first, first + 2).map(([name, value]) => ({ name, lines: linesOf(paper, value, column - nameWidth - 10, BODY) }));
    const height = Math.max(...pair.map(({ lines }) => lines.length)) * BODY.size * LEADING + 2;
    paper.need(height);
    const { y } = paper;
    const row = paper.element(table, 'TR');
    for (const [at, { name, lines }] of pair.entries()) {
      const x = paper.left + at * column;
      paper.tag(row, 'TH', () => paper.line(name, x, y + 1, nameInk), { scope: 'Row' });
      paper.tag(row, 'TD', () => paper.lines(lines, x + nameWidth, y, BODY));
    }
    row.end();
    paper.down(height);
  }
  table.end();
  paper.down(6);
}
