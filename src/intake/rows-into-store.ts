import { Injectable } from '@nestjs/common';
import type { FileKind } from './core/log-profile.js';
import { CycleRows } from './cycle-rows.js';
import { EventRows } from './event-rows.js';
import type { RowsContext, RowsInto } from './rows-into.js';
import { SampleRowsIntoStore } from './sample-rows-into-store.js';

/** Who takes the rows of which kind of file. */
@Injectable()
export class RowsIntoStore {
  constructor(
    private readonly samples: SampleRowsIntoStore,
    private readonly cycles: CycleRows,
    private readonly events: EventRows,
  ) {}

  open(kind: FileKind, context: RowsContext): Promise<RowsInto> {
    return { samples: this.samples, cycles: this.cycles, events: this.events }[kind].open(context);
  }
}
