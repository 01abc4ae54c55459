import { columnWidths } from '../core/column-widths.js';
import type { Cell, TableBlock, TableColumn } from '../core/document.js';
import { drawStanding, standingWidth } from './draw-standing.js';
import { INKS } from './inks.js';
import { linesOf } from './lines.js';
import { type Element, type Ink, LEADING, type Paper } from './paper.js';

const SIZE = 8.5;
const STEP = SIZE * LEADING;
const HEAD_INK: Ink = { size: SIZE, strong: true };
const CELL_INK: Ink = { size: SIZE };
const PAD = { x: 4, y: 2.5 };

interface Place {
  readonly x: number;
  readonly width: number;
  readonly numeric: boolean;
}

/** A table over as many pages as it takes: its head is repeated on each as an artifact, and a row stays in one piece where a page can hold it. */
export function drawTable(paper: Paper, { caption, columns, rows }: TableBlock): void {
  const places = placesOf(paper, columns, rows);
  const table = paper.element(paper.root, 'Table', { title: caption });
  const head = columns.map(({ name }, at) => linesOf(paper, name, innerWidth(places[at]), HEAD_INK));
  const headHeight = heightOf(head);
  paper.need(headHeight + 3 * STEP);
  drawHead(paper, table, head, places, headHeight);
  for (const row of rows) {
    const cells = row.map((cell, at) => (typeof cell === 'string' ? linesOf(paper, cell, innerWidth(places[at]), CELL_INK) : [cell]));
    const turn = (): void => {
      paper.newPage();
      drawHead(paper, null, head, places, headHeight);
    };
    if (paper.y + heightOf(cells) > paper.floor) turn();
    drawRow(paper, table, cells, places, turn);
  }
  table.end();
  paper.down(8);
}

type CellLine = string | Exclude<Cell, string>;

/** A row that no page can hold goes on over the next. */
function drawRow(paper: Paper, table: Element, cells: readonly (readonly CellLine[])[], places: readonly Place[], turn: () => void): void {
  const row = paper.element(table, 'TR');
  const elements = cells.map(() => paper.element(row, 'TD'));
  const count = Math.max(1, ...cells.map((lines) => lines.length));
  for (let from = 0; from < count; ) {
    if (from > 0) turn();
    const fitting = Math.max(1, Math.floor((paper.floor - paper.y - 2 * PAD.y) / STEP));
    const to = Math.min(count, from + fitting);
    const { y } = paper;
    for (const [at, lines] of cells.entries()) {
      const shown = lines.slice(from, to);
      if (shown.length > 0) elements[at]?.add(() => drawCell(paper, shown, places[at], y, CELL_INK));
    }
    const bottom = y + (to - from) * STEP + 2 * PAD.y;
    rule(paper, places, bottom, 0.5, INKS.line);
    paper.down(bottom - y);
    from = to;
  }
  for (const element of elements) element.end();
  row.end();
}

/** The first time as the head of the table; on later pages, without a table to belong to, as an artifact. */
function drawHead(paper: Paper, table: Element | null, head: readonly string[][], places: readonly Place[], height: number): void {
  const { y } = paper;
  paper.artifact(() => {
    paper.doc.rect(paper.left, y, widthOf(places), height).fill(INKS.sunk);
  });
  const draw = (at: number): void => drawCell(paper, head[at] ?? [], places[at], y, HEAD_INK);
  if (table === null) {
    paper.artifact(() => {
      for (const at of head.keys()) draw(at);
    }, 'Pagination');
  } else {
    const row = paper.element(table, 'TR');
    for (const at of head.keys()) paper.tag(row, 'TH', () => draw(at), { scope: 'Column' });
    row.end();
  }
  rule(paper, places, y + height, 1, INKS.edge);
  paper.down(height);
}

function drawCell(paper: Paper, lines: readonly CellLine[], place: Place | undefined, top: number, ink: Ink): void {
  if (place === undefined) return;
  for (const [at, line] of lines.entries()) {
    const y = top + PAD.y + at * STEP;
    if (typeof line !== 'string') drawStanding(paper, line.standing, place.x + PAD.x, y, SIZE);
    else if (place.numeric) paper.line(line, place.x + place.width - PAD.x, y, ink, 'right');
    else paper.line(line, place.x + PAD.x, y, ink);
  }
}

function rule(paper: Paper, places: readonly Place[], y: number, width: number, color: string): void {
  paper.artifact(() => {
    paper.doc
      .moveTo(paper.left, y)
      .lineTo(paper.left + widthOf(places), y)
      .lineWidth(width)
      .stroke(color);
  });
}

const widthOf = (places: readonly Place[]): number => places.reduce((sum, { width }) => sum + width, 0);
const innerWidth = (place: Place | undefined): number => (place?.width ?? 0) - 2 * PAD.x;
const heightOf = (cells: readonly (readonly unknown[])[]): number => Math.max(1, ...cells.map((lines) => lines.length)) * STEP + 2 * PAD.y;

function placesOf(paper: Paper, columns: readonly TableColumn[], rows: TableBlock['rows']): Place[] {
  const asked = columns.map((column, at) => {
    const words = new Set<string>(column.name.split(' '));
    let whole = paper.measure(column.name, HEAD_INK);
    let least = Math.max(...[...words].map((word) => paper.measure(word, HEAD_INK)));
    for (const row of rows) {
      const cell = row[at] ?? '';
      if (typeof cell !== 'string') {
        least = Math.max(least, standingWidth(paper, cell.standing, SIZE));
        whole = Math.max(whole, least);
        continue;
      }
      whole = Math.max(whole, ...cell.split('\n').map((line) => paper.measure(line, CELL_INK)));
      least = Math.max(least, ...cell.split(/\s/).map((word) => paper.measure(word, CELL_INK)));
    }
    return { least: least + 2 * PAD.x, whole: whole + 2 * PAD.x, numeric: column.numeric === true };
  });
  let x = paper.left;
  return columnWidths(asked, paper.width).map((width, at) => {
    const place = { x, width, numeric: asked[at]?.numeric === true };
    x += width;
    return place;
  });
}
