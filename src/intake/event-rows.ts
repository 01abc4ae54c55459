import { Injectable } from '@nestjs/common';
import { readEvent } from './core/event-row.js';
import { placedFields } from './core/placed-fields.js';
import { readFields } from './core/read-fields.js';
import { tableColumns } from './core/table-fields.js';
import type { PreviewRow } from './loading.js';
import { SkidsRepository } from './repositories/skids.repository.js';
import { PREVIEW_ROWS, type RowsContext, type RowsInto } from './rows-into.js';
import { StoreEvents, type TimedEvent } from './store-events.js';

const ROWS_AT_ONCE = 2_000;

/** Rows of a file of events into the store. */
@Injectable()
export class EventRows {
  constructor(
    private readonly skids: SkidsRepository,
    private readonly events: StoreEvents,
  ) {}

  async open({ skid, caller, definition, load }: RowsContext): Promise<RowsInto> {
    const { columns, needed } = tableColumns('events', definition);
    const machines = await this.skids.machinesOf(skid.id);
    const preview: PreviewRow[] = [];
    let waiting: TimedEvent[] = [];
    const store = async () => {
      const events = waiting;
      waiting = [];
      await this.events.store(skid, events, load);
    };
    return {
      columns: columns.map(({ column }) => ({ name: column, needed })),
      preview,
      begin: (places) => {
        const placed = placedFields('events', columns, places);
        return (cells, line, atMs, doubtful) => {
          const fields = readFields(cells, placed, definition);
          const read = readEvent(fields, machines);
          if (read.kind === 'faults') {
            for (const { column, value, message } of read.faults) load.problems.add('refused', line, column, value, message);
            return;
          }
          if (doubtful)
            load.problems.add('doubtful', line, definition.timeColumn, null, 'lies in the hour that the end of summer time doubles; taken as it stands');
          const at = new Date(atMs);
          waiting.push({ line, at, by: read.by ?? caller.name, event: read.event });
          if (preview.length >= PREVIEW_ROWS) return;
          const shown = placed.flatMap(({ field: { name, unit } }) => {
            const value = fields.values[name];
            return value === undefined ? [] : [{ name, value, unit }];
          });
          preview.push({ line, at, fields: shown });
        };
      },
      drain: async () => {
        if (waiting.length >= ROWS_AT_ONCE) await store();
      },
      end: store,
      abort: async () => {},
    };
  }
}
