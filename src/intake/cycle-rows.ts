import { Injectable } from '@nestjs/common';
import type { CycleFact } from './core/cycle-fact.js';
import { readCycle } from './core/cycle-row.js';
import { placedFields } from './core/placed-fields.js';
import { type PlacedField, readFields } from './core/read-fields.js';
import { TABLE_FIELDS, tableColumns } from './core/table-fields.js';
import type { PreviewRow } from './loading.js';
import { DerivedCycles } from './repositories/derived-cycles.repository.js';
import { addCounts, RecordStore } from './repositories/record-store.repository.js';
import { CYCLES } from './repositories/record-tables.js';
import { PREVIEW_ROWS, type RowsContext, type RowsInto } from './rows-into.js';

const ROWS_AT_ONCE = 2_000;

/** Rows of a file of cycles into the store. */
@Injectable()
export class CycleRows {
  constructor(
    private readonly records: RecordStore,
    private readonly derived: DerivedCycles,
  ) {}

  async open({ skid, definition, readTime, load }: RowsContext): Promise<RowsInto> {
    const { columns, needed } = tableColumns('cycles', definition);
    const preview: PreviewRow[] = [];
    let waiting: { line: number; cycle: CycleFact }[] = [];
    let placed: PlacedField[] = [];
    const store = async () => {
      const incoming = waiting.map(({ line, cycle: { byHand: _, ...row } }) => ({ line, row: { ...row, skidNo: skid.no } }));
      await this.derived.giveWay(
        load.tx,
        skid.no,
        waiting.map(({ cycle }) => cycle),
      );
      waiting = [];
      addCounts(load.counts, await this.records.store(load.tx, CYCLES, incoming, load.scope, load.problems));
    };
    return {
      columns: columns.map(({ column }) => ({ name: column, needed })),
      preview,
      begin: (places) => {
        placed = placedFields('cycles', columns, places);
        return (cells, line, atMs, doubtful) => {
          const read = readCycle(readFields(cells, placed, definition), atMs, doubtful, readTime);
          if (read.kind === 'faults') {
            for (const { column, value, message } of read.faults) load.problems.add('refused', line, column, value, message);
            return;
          }
          if (doubtful)
            load.problems.add(
              'doubtful',
              line,
              definition.timeColumn,
              null,
              'lies in the hour that the end of summer time doubles, and the rows do not show in which pass',
            );
          waiting.push({ line, cycle: read.cycle });
          if (preview.length < PREVIEW_ROWS) preview.push({ line, at: read.cycle.startedAt, fields: fieldsOf(read.cycle) });
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

/** The cycle by the documented names of its fields. */
function fieldsOf(cycle: CycleFact): PreviewRow['fields'] {
  const values: Record<string, number | string | null> = {
    ended_at: cycle.endedAt.toISOString(),
    filtration_minutes: cycle.filtrationMinutes,
    filtrate_m3: cycle.filtrateM3,
    flow_m3h: cycle.flowM3h,
    feed_kpa: cycle.feedKpa,
    filtrate_kpa: cycle.filtrateKpa,
    concentrate_kpa: cycle.concentrateKpa,
    tmp_kpa: cycle.tmpKpa,
    tmp_start_kpa: cycle.tmpStartKpa,
    tmp_end_kpa: cycle.tmpEndKpa,
    temperature_c: cycle.temperatureC,
    cartridge_dp_kpa: cycle.cartridgeDpKpa,
    feed_turbidity_ntu: cycle.feedTurbidityNtu,
  };
  return TABLE_FIELDS.cycles.flatMap(({ name, unit }) => {
    const value = values[name] ?? null;
    return value === null ? [] : [{ name, value, unit }];
  });
}
