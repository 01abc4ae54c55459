import { parse } from 'csv-parse/sync';

/** Takes the cells of one row; `line` is that in which it begins. */
export type TakeCells = (cells: string[], line: number) => void;
export type TakeBroken = (line: number, text: string, message: string) => void;

const LONGEST_LINE = 64 * 1024;
/** A quoted cell may hold line breaks (RFC 4180), but a stray quote must not swallow the rows behind it. */
const MOST_LINES_OF_A_ROW = 20;

/**
 * Splits text into rows and cells as RFC 4180 has it, piece by piece, and goes on behind a row that is broken. Lines without a quote, which is nearly all of
 * them in a log, are split at the mark; lines with quotes go through the library, and a quote that does not close within some lines, or not with the right
 * number of cells, breaks one line and no more.
 */
export class Records {
  /** The line that has not ended yet */
  private rest = '';
  /** Lines of a row whose quotes have not closed yet */
  private held: string[] = [];
  private line: number;
  private dropping = false;
  private width: number | undefined;

  constructor(
    private readonly mark: string,
    private readonly take: TakeCells,
    private readonly broken: TakeBroken,
    /** Lines of the file above the text */
    linesAbove = 0,
  ) {
    this.line = linesAbove;
  }

  /** The number of cells that a row with line breaks in it must have to be believed. */
  expect(width: number): void {
    this.width = width;
  }

  add(text: string): void {
    const all = this.rest + text;
    const end = all.lastIndexOf('\n') + 1;
    this.rest = all.slice(end);
    if (end > 0) this.splitHeld(all.slice(0, end - 1).split('\n'), false);
    if (this.rest.length > LONGEST_LINE) this.drop();
  }

  end(): void {
    const { rest } = this;
    this.rest = '';
    this.splitHeld(rest === '' ? [] : [rest], true);
  }

  private splitHeld(lines: readonly string[], last: boolean): void {
    const { held } = this;
    this.held = [];
    this.split(held.length === 0 ? lines : [...held, ...lines], last);
  }

  /** The line has no end: say so once, and forget what comes until the next line. */
  private drop(): void {
    this.splitHeld([], true);
    if (!this.dropping) this.broken(this.line + 1, this.rest, `is longer than ${LONGEST_LINE} characters`);
    this.dropping = true;
    this.rest = '';
  }

  private split(lines: readonly string[], last: boolean): void {
    let at = 0;
    if (this.dropping && lines.length > 0) {
      this.dropping = false;
      this.line += 1;
      at = 1;
    }
    while (at < lines.length) {
      const text = lines[at] ?? '';
      const quotes = countQuotes(text);
      if (quotes === 0) {
        this.line += 1;
        at += 1;
        const cells = withoutReturn(text);
        if (cells !== '') this.take(cells.split(this.mark), this.line);
      } else if (quotes % 2 === 0) {
        at += this.quotedLines(lines, at);
      } else {
        const taken = this.openLines(lines, at, last);
        if (taken === 0) {
          this.held = lines.slice(at);
          return;
        }
        at += taken;
      }
    }
  }

  /** Neighbouring lines whose quotes all close: one call of the library for all of them. */
  private quotedLines(lines: readonly string[], from: number): number {
    let to = from + 1;
    while (to < lines.length && countQuotes(lines[to] ?? '') % 2 === 0 && (lines[to] ?? '').trim() !== '') to += 1;
    const texts = lines.slice(from, to).map(withoutReturn);
    const rows = this.parse(texts.join('\n'));
    if (rows?.length === texts.length) {
      for (const cells of rows) {
        this.line += 1;
        this.take(cells, this.line);
      }
      return to - from;
    }
    for (const text of texts) {
      this.line += 1;
      const alone = this.parse(text)?.[0];
      if (alone === undefined) this.broken(this.line, text, 'has a quote where none may be');
      else this.take(alone, this.line);
    }
    return to - from;
  }

  /** A line with an open quote, with those up to where it closes; 0: more lines are needed to know. */
  private openLines(lines: readonly string[], from: number, last: boolean): number {
    const most = Math.min(lines.length, from + MOST_LINES_OF_A_ROW);
    for (let to = from + 1; to < most; to += 1) {
      if (countQuotes(lines[to] ?? '') % 2 === 0) continue;
      const [cells, ...more] =
        this.parse(
          lines
            .slice(from, to + 1)
            .map(withoutReturn)
            .join('\n'),
        ) ?? [];
      if (cells === undefined || more.length > 0 || (this.width !== undefined && cells.length !== this.width)) break;
      this.line += 1;
      this.take(cells, this.line);
      this.line += to - from;
      return to - from + 1;
    }
    if (!last && most === lines.length && lines.length - from < MOST_LINES_OF_A_ROW && !this.closes(lines, from)) return 0;
    this.line += 1;
    this.broken(this.line, withoutReturn(lines[from] ?? ''), 'has a quote that does not close');
    return 1;
  }

  private closes(lines: readonly string[], from: number): boolean {
    return lines.slice(from + 1).some((text) => countQuotes(text) % 2 === 1);
  }

  private parse(text: string): string[][] | undefined {
    try {
      return parse(text, { delimiter: this.mark, relax_column_count: true, skip_empty_lines: false, record_delimiter: '\n' });
    } catch {
      return undefined;
    }
  }
}

function countQuotes(text: string): number {
  let count = 0;
  for (let at = text.indexOf('"'); at !== -1; at = text.indexOf('"', at + 1)) count += 1;
  return count;
}

function withoutReturn(text: string): string {
  return text.endsWith('\r') ? text.slice(0, -1) : text;
}
