import type { Caller } from '../app/index.js';
import type { LogProfileDefinition } from './core/log-profile.js';
import type { WantedColumn } from './core/read-header.js';
import type { TimeReader } from './core/read-time.js';
import type { TakeRow } from './files/log-table.js';
import type { OpenLoad, PreviewRow } from './loading.js';
import type { SkidPlace } from './repositories/skids.repository.js';

export interface RowsContext {
  readonly skid: SkidPlace;
  readonly caller: Caller;
  readonly definition: LogProfileDefinition;
  /** Read by the documented columns, of which a file has those that it needs */
  readonly isPlain: boolean;
  readonly readTime: TimeReader;
  readonly dryRun: boolean;
  readonly load: OpenLoad;
}

/** What takes the rows of one kind of file and puts them into the store, some at a time. */
export interface RowsInto {
  readonly columns: readonly WantedColumn[];
  readonly begin: (places: readonly number[]) => TakeRow;
  /** The first rows as they were understood */
  readonly preview: readonly PreviewRow[];
  drain(): Promise<void>;
  end(): Promise<void>;
  abort(): Promise<void>;
}

export const PREVIEW_ROWS = 5;
