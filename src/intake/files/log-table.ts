import type { LogProfileDefinition } from '../core/log-profile.js';
import type { ProblemList } from '../core/problem-list.js';
import { guessMark, readHeader, type WantedColumn } from '../core/read-header.js';
import type { TimeReader } from '../core/read-time.js';
import { RowTimes } from '../core/row-times.js';
import { UnreadableFile } from '../intake.errors.js';
import { Records } from './records.js';

/** Takes a row whose time is known. `doubtful`: it could as well be an hour later. */
export type TakeRow = (cells: readonly string[], line: number, atMs: number, doubtful: boolean) => void;

export interface LogTableSettings {
  readonly definition: Pick<LogProfileDefinition, 'delimiter' | 'skipLines' | 'timeColumn'>;
  readonly readTime: TimeReader;
  readonly columns: readonly WantedColumn[];
  readonly problems: ProblemList;
  /** Is told where the wanted columns stand, and answers who takes the rows */
  readonly begin: (places: readonly number[]) => TakeRow;
}

const LONGEST_HEAD = 256 * 1024;

/** A log file as a table: its header, and behind it rows with their time. A row that is broken is a problem and loses no other row. */
export class LogTable {
  rows = 0;
  private head: string | null = '';
  private records: Records | undefined;
  private times: RowTimes<{ readonly cells: readonly string[]; readonly line: number }> | undefined;
  private timePlace = 0;
  private width = 0;

  constructor(private readonly settings: LogTableSettings) {}

  add(text: string): void {
    if (this.head === null) {
      this.records?.add(text);
      return;
    }
    this.head += text;
    if (this.headerLine(this.head) !== undefined) this.start(this.head);
    else if (this.head.length > LONGEST_HEAD) throw new UnreadableFile('The file has no line that could be its header');
  }

  end(): void {
    if (this.head !== null) this.start(this.head);
    this.records?.end();
    if (this.times === undefined) throw new UnreadableFile('The file is empty: it has no header');
    this.times.end();
  }

  /** Undefined: it has not come yet. */
  private headerLine(head: string): string | undefined {
    const lines = head.split('\n', this.settings.definition.skipLines + 2);
    return lines.length < this.settings.definition.skipLines + 2 ? undefined : lines[this.settings.definition.skipLines];
  }

  private start(head: string): void {
    const { delimiter, skipLines } = this.settings.definition;
    const below = head.split('\n').slice(skipLines);
    const mark = delimiter === 'auto' ? guessMark(below[0] ?? '') : delimiter === 'tab' ? '\t' : delimiter;
    const { problems } = this.settings;
    this.head = null;
    this.records = new Records(
      mark,
      (cells, line) => this.takeCells(cells, line),
      (line, text, message) => {
        if (this.times === undefined) throw new UnreadableFile('The header has a quote that does not close');
        this.rows += 1;
        problems.add('refused', line, null, text, message);
      },
      skipLines,
    );
    this.records.add(below.join('\n'));
  }

  private takeCells(cells: readonly string[], line: number): void {
    if (this.times === undefined) {
      this.takeHeader(cells);
      return;
    }
    const { problems, readTime, definition } = this.settings;
    this.rows += 1;
    const surplus = cells.length > this.width && cells.slice(this.width).some((cell) => cell.trim() !== '');
    if (cells.length < this.width || surplus) {
      problems.add('refused', line, null, String(cells.length), `is not the number of cells that the header has, ${this.width}`);
      return;
    }
    const text = cells[this.timePlace] ?? '';
    const time = readTime(text);
    if (time.kind === 'bad-time') problems.add('refused', line, definition.timeColumn, text, time.reason);
    else this.times.add({ cells, line }, time);
  }

  private takeHeader(cells: readonly string[]): void {
    const { columns, definition, begin } = this.settings;
    const header = readHeader(cells, [{ name: definition.timeColumn, needed: true }, ...columns]);
    if (header.kind === 'bad-header') {
      const fields = header.faults.map(({ column, message }) => ({ pointer: column, message }));
      throw new UnreadableFile('The header of the file does not have the columns that are wanted', fields);
    }
    const [timePlace = 0, ...places] = header.places;
    this.timePlace = timePlace;
    this.width = cells.length;
    this.records?.expect(cells.length);
    const take = begin(places);
    this.times = new RowTimes(({ cells: row, line }, atMs, doubtful) => take(row, line, atMs, doubtful));
  }
}
