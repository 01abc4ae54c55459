/** One figure of an evaluation, printed as a line of JSON. */
export interface Figure {
  readonly measure: string;
  /** Null: nothing to reckon it from, and `n` says how little */
  readonly value: number | null;
  readonly unit: string;
  /** `ours`, or the name of the simple method beside it */
  readonly method: string;
  readonly set?: string;
  readonly at?: string | number;
  readonly case?: string;
  readonly n?: number;
  /** Of the figure, as `[low, high]` */
  readonly interval?: readonly [number, number];
  readonly [more: string]: unknown;
}

export type Print = (figure: Figure | Readonly<Record<string, unknown>>) => void;

/** What the command line takes: as `parseArgs` of Node does, and `file` for paths (several by commas) that must be there. */
export type Options = Readonly<Record<string, { readonly type: 'string' | 'boolean'; readonly default?: string; readonly file?: boolean }>>;

export type Values = Readonly<Record<string, string | boolean | undefined>>;

/** Said to whoever called, with what to change; the command ends with status 2. */
export class BadInput extends Error {
  override readonly name = 'BadInput';
}
