import { QUALITY } from '../../shared/quality.js';
import { SIGNALS, type SignalCode } from '../../shared/signals.js';
import { UNITS, type UnitCode } from '../../shared/units.js';
import type { ProfileGates } from './log-profile.js';
import { measuredValue } from './measured-value.js';
import type { ProblemList } from './problem-list.js';
import { type CellSettings, wordOf } from './read-fields.js';
import { readNumber } from './read-number.js';

/** A column of samples in this file. */
export interface SampleColumn {
  readonly column: string;
  /** From 0 */
  readonly place: number;
  readonly signal: SignalCode;
  readonly unit: UnitCode;
}

/** Takes one value in its stored unit; `index` is that of the column. */
export type TakeSample = (index: number, atMs: number, value: number, quality: number, line: number) => void;

export interface SampleSettings extends CellSettings {
  readonly gates: ProfileGates;
}

/** Standing water and an idle pump show the same pressure for hours: only what moves in service can be seen to be stuck. */
const MOVING: readonly string[] = ['pressure', 'flow'];

/**
 * Reads rows of samples: each cell becomes a value in the stored unit of its signal, or a problem. A cell that cannot be read loses no other cell of its row.
 * A pressure or flow that shows the same value, other than zero, in so many rows in a row as the profile says is marked as stuck from there on.
 */
export class SampleRows {
  private readonly columns: readonly (SampleColumn & {
    readonly factor: number;
    readonly offset: number;
    readonly low: number;
    readonly high: number;
    readonly moves: boolean;
  })[];
  private readonly lastValues: number[];
  private readonly repeats: number[];

  constructor(
    columns: readonly SampleColumn[],
    private readonly settings: SampleSettings,
    private readonly problems: ProblemList,
    private readonly take: TakeSample,
  ) {
    this.columns = columns.map((column) => {
      const { plausible, dimension } = SIGNALS[column.signal];
      const { factor, offset } = UNITS[column.unit];
      return { ...column, factor, offset, low: plausible[0], high: plausible[1], moves: MOVING.includes(dimension) };
    });
    this.lastValues = this.columns.map(() => Number.NaN);
    this.repeats = this.columns.map(() => 0);
  }

  read(cells: readonly string[], line: number, atMs: number, doubtful: boolean): void {
    if (doubtful)
      this.problems.add('doubtful', line, null, null, 'lies in the hour that the end of summer time doubles, and the rows do not show in which pass');
    const timeQuality = doubtful ? QUALITY.doubtfulTime : QUALITY.good;
    const { decimal, missingValues, words, gates } = this.settings;
    for (let index = 0; index < this.columns.length; index++) {
      const column = this.columns[index] as (typeof this.columns)[number];
      const cell = wordOf((cells[column.place] ?? '').trim(), words);
      const number = readNumber(cell, decimal, missingValues);
      if (number.kind === 'missing') continue;
      if (number.kind === 'not-a-number') {
        this.problems.add('refused', line, column.column, cell, number.reason);
        continue;
      }
      const value = number.value * column.factor + column.offset;
      if (!(value >= column.low && value <= column.high)) {
        this.problems.add('refused', line, column.column, cell, reasonOf(column, number.value));
        continue;
      }
      const stuck = column.moves && gates.stuckAfter !== null && this.isStuck(index, value, gates.stuckAfter);
      if (stuck) this.problems.add('doubtful', line, column.column, cell, 'has been the same for too many rows: the transmitter may be stuck');
      this.take(index, atMs, value, stuck ? timeQuality | QUALITY.stuck : timeQuality, line);
    }
  }

  private isStuck(index: number, value: number, after: number): boolean {
    const same = value !== 0 && value === this.lastValues[index];
    this.lastValues[index] = value;
    const repeats = same ? (this.repeats[index] ?? 0) + 1 : 1;
    this.repeats[index] = repeats;
    return repeats >= after;
  }
}

function reasonOf({ signal, unit }: SampleColumn, value: number): string {
  const measured = measuredValue(signal, value, unit);
  return measured.kind === 'impossible' ? measured.reason : 'is not possible';
}
