/** One line of what was done: what, and the value or how much; marked where somebody should look. */
export interface SummaryLine {
  readonly name: string;
  readonly value: string;
  /** outside its limits, left out, answered no */
  readonly mark: string | null;
}

export interface SummaryTask {
  readonly task: string;
  readonly positionName: string | null;
  readonly outcome: 'done' | 'not done';
  /** Why it was not done, or what was noticed */
  readonly note: string;
  readonly steps: readonly SummaryLine[];
}

/** What a report says was done, for everybody to read: the client too, so nothing of stock or of where it lies. */
export interface ReportSummary {
  readonly tasks: readonly SummaryTask[];
  readonly lines: readonly SummaryLine[];
  readonly note: string;
}
