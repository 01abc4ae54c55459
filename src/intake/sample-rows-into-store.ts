import { Injectable } from '@nestjs/common';
import { Database } from '../app/index.js';
import type { SignalCode } from '../shared/signals.js';
import { SIGNALS } from '../shared/signals.js';
import { type LogProfileDefinition, PLAIN_SAMPLE_COLUMNS } from './core/log-profile.js';
import { SampleRows } from './core/sample-rows.js';
import type { SegmentSettings } from './core/segment.js';
import type { PreviewRow } from './loading.js';
import { DerivedCycles } from './repositories/derived-cycles.repository.js';
import { addCounts } from './repositories/record-store.repository.js';
import { SampleWriter } from './repositories/sample-writer.repository.js';
import { SignalsRepository } from './repositories/signals.repository.js';
import type { SkidPlace } from './repositories/skids.repository.js';
import { PREVIEW_ROWS, type RowsContext, type RowsInto } from './rows-into.js';

/** Plants that go days without a clean still give a value a day. */
const LONGEST_RUN_MINUTES = 1440;

/** Rows of a file of samples into the store; the cycles of the time that they touch are made again. */
@Injectable()
export class SampleRowsIntoStore {
  constructor(
    private readonly database: Database,
    private readonly signals: SignalsRepository,
    private readonly derived: DerivedCycles,
  ) {}

  async open({ skid, definition, isPlain, dryRun, load }: RowsContext): Promise<RowsInto> {
    const columns = isPlain ? PLAIN_SAMPLE_COLUMNS : definition.columns;
    const wanted = columns.map(({ as, positionId }) => ({ code: as as SignalCode, positionId }));
    const ids = await this.signals.idsOf(load.tx, skid.id, wanted);
    const nameOf = (id: number): string => columns[ids.indexOf(id)]?.column ?? 'value';
    const { tx, scope, problems, counts } = load;
    const writer = await SampleWriter.open({ tx, pool: this.database.pool, scope, dryRun, signalIds: ids, nameOf }, problems);
    const preview: PreviewRow[] = [];
    const shown = new Map<number, { line: number; at: Date; fields: { name: string; value: number; unit: string | null }[] }>();
    return {
      columns: columns.map(({ column }) => ({ name: column, needed: !isPlain })),
      preview,
      begin: (places) => {
        const present = columns.flatMap(({ column, as, unit }, index) => {
          const place = places[index] ?? -1;
          const signal = as as SignalCode;
          return place < 0 ? [] : [{ index, column: { column, place, signal, unit: unit ?? SIGNALS[signal].unit } }];
        });
        const presentIds = present.map(({ index }) => ids[index] ?? 0);
        const rows = new SampleRows(
          present.map(({ column }) => column),
          definition,
          problems,
          (index, atMs, value, quality, line) => {
            writer.add(presentIds[index] ?? 0, atMs, value, quality, line);
            if (shown.size >= PREVIEW_ROWS && !shown.has(line)) return;
            const row = shown.get(line) ?? { line, at: new Date(atMs), fields: [] };
            const signal = present[index]?.column.signal;
            if (signal !== undefined) row.fields.push({ name: signal, value, unit: SIGNALS[signal].unit });
            shown.set(line, row);
          },
        );
        return (cells, line, atMs, doubtful) => rows.read(cells, line, atMs, doubtful);
      },
      drain: () => writer.drain(),
      end: async () => {
        await writer.end();
        addCounts(counts, writer.counts);
        preview.push(...shown.values());
        if (dryRun || writer.lastMs < writer.firstMs) return;
        const touched = { firstMs: writer.firstMs, lastMs: writer.lastMs };
        const notResolvable = await this.derived.remake(tx, skid, settingsOf(definition, skid), scope.loadNo, touched);
        for (const gate of notResolvable) problems.add('note', 0, null, gate, 'cannot be told from samples so far apart, and was not applied');
      },
      abort: () => writer.abort(),
    };
  }
}

function settingsOf({ segmentation, gates }: LogProfileDefinition, skid: SkidPlace): SegmentSettings {
  const { filtrationModes, filtrationFlowShare, maxGapMinutes } = segmentation;
  return {
    filtrationModes,
    setPointM3h: skid.ratedFlowM3h,
    filtrationFlowShare,
    maxGapMinutes,
    longestMinutes: LONGEST_RUN_MINUTES,
    intervalSeconds: null,
    gates,
    tmp: skid.tmp,
  };
}
