export const PROBLEM_KINDS = ['refused', 'doubtful', 'differing', 'note'] as const;
export type ProblemKind = (typeof PROBLEM_KINDS)[number];

/** One thing that the sender should look at. */
export interface Problem {
  readonly kind: ProblemKind;
  /** Line of the file or number of the row, from 1; 0 for the whole */
  readonly line: number;
  readonly column: string | null;
  /** As it stood there, cut to 80 characters */
  readonly value: string | null;
  readonly message: string;
}

export interface ProblemReport {
  /** How often each message came, the frequent ones first */
  readonly totals: readonly { readonly kind: ProblemKind; readonly message: string; readonly count: number }[];
  /** The first ones of each message */
  readonly listed: readonly Problem[];
}

const LISTED_IN_ALL = 200;
const LISTED_OF_ONE_MESSAGE = 50;
const DIFFERENT_MESSAGES = 100;
const VALUE_CHARACTERS = 80;

/**
 * Collects what is wrong with a file. A file of a million bad rows must neither fill the memory nor hide the one other fault: each message is counted, and
 * its first cases are listed.
 */
export class ProblemList {
  private readonly counts = new Map<string, { kind: ProblemKind; message: string; count: number }>();
  private readonly listed: Problem[] = [];

  add(kind: ProblemKind, line: number, column: string | null, value: string | null, message: string): void {
    const count = this.addUnlisted(kind, message, 1);
    if (count > LISTED_OF_ONE_MESSAGE || this.listed.length >= LISTED_IN_ALL) return;
    this.listed.push({ kind, line, column, value: value === null ? null : shortened(value), message });
  }

  /** More of the same, of which the first have been listed. Answers how many there are by now. */
  addUnlisted(kind: ProblemKind, message: string, more: number): number {
    const key = this.counts.size < DIFFERENT_MESSAGES ? `${kind} ${message}` : kind;
    const total = this.counts.get(key) ?? { kind, message, count: 0 };
    total.count += more;
    if (total.count > 0) this.counts.set(key, total);
    return total.count;
  }

  count(kind: ProblemKind): number {
    let count = 0;
    for (const total of this.counts.values()) if (total.kind === kind) count += total.count;
    return count;
  }

  report(): ProblemReport {
    return { totals: [...this.counts.values()].sort((a, b) => b.count - a.count), listed: [...this.listed].sort((a, b) => a.line - b.line) };
  }
}

/** U+0000 cannot be stored, and a lone half of a surrogate pair is no text. */
function shortened(value: string): string {
  const cut = value.length > VALUE_CHARACTERS ? `${value.slice(0, VALUE_CHARACTERS)}…` : value;
  return cut.replaceAll('\0', '\uFFFD').replaceAll(/[\uD800-\uDFFF]/gu, '\uFFFD');
}
