import type { Standing } from '../../shared/standing.js';
import type { Trend, TrendSpan } from '../../shared/trend.js';
import type { Bars } from './bars.js';

/** A report as plain data: what stands in it and in which order, without any place on paper. */
export interface ReportDocument {
  readonly title: string;
  /** Above the title: whose and where */
  readonly place: string;
  /** What the head of every page repeats */
  readonly running: string;
  /** When and by what it was made, at the foot of every page */
  readonly made: string;
  readonly madeAtMs: number;
  readonly blocks: readonly Block[];
}

export type Block =
  | { readonly kind: 'heading'; readonly level: 2 | 3; readonly text: string }
  | { readonly kind: 'paragraph'; readonly text: string; readonly tone?: Tone }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  | { readonly kind: 'standing'; readonly standing: Standing; readonly text: string }
  | { readonly kind: 'facts'; readonly facts: readonly Fact[] }
  | TableBlock
  | TrendBlock
  | { readonly kind: 'bars'; readonly alt: string; readonly bars: Bars }
  | { readonly kind: 'photographs'; readonly photographs: readonly Photograph[] }
  /** The title of a part, which begins on a page of its own unless it goes on with the page before */
  | { readonly kind: 'part'; readonly place: string; readonly title: string; readonly goesOn?: true };

/** `soft`: beside the matter; `caution`: to be seen before anything else. */
export type Tone = 'lead' | 'soft' | 'caution';

export type Fact = readonly [name: string, value: string];

export interface TableBlock {
  readonly kind: 'table';
  /** What the table holds, for those who hear it */
  readonly caption: string;
  readonly columns: readonly TableColumn[];
  readonly rows: readonly (readonly Cell[])[];
}

export interface TableColumn {
  readonly name: string;
  /** Numbers stand right, one below the other */
  readonly numeric?: boolean;
}

export type Cell = string | { readonly standing: Standing };

export interface TrendBlock {
  readonly kind: 'trend';
  readonly title: string;
  readonly unit: string;
  /** The message in words: stands above the drawing, and for it where it is not seen */
  readonly sentence: string;
  readonly trend: Trend;
  readonly span: TrendSpan;
  readonly limitLabel: string;
  readonly baselineLabel: string;
}

export interface Photograph {
  readonly name: string;
  /** Who took it, when, and of what */
  readonly caption: string;
  readonly content: Uint8Array;
}
