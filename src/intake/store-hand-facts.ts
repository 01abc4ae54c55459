import { Injectable } from '@nestjs/common';
import { newId } from '../app/index.js';
import type { HandFacts } from './core/hand-entry.js';
import type { IncomingRecord } from './core/merge-records.js';
import type { OpenLoad } from './loading.js';
import { addCounts, RecordStore } from './repositories/record-store.repository.js';
import { HAND_READINGS, HAND_VALUES, METER_READINGS, type RecordTable, TANK_DIPS } from './repositories/record-tables.js';
import type { SkidPlace } from './repositories/skids.repository.js';
import type { Statements } from './repositories/transactions.repository.js';

export interface TimedHandFacts {
  readonly line: number;
  readonly at: Date;
  readonly minutesSinceBackwash: number | null;
  readonly note: string;
  readonly readBy: string;
  readonly facts: HandFacts;
}

/** Stores readings by hand value by value, since an earlier reading of the same time may lack a gauge that this one has. */
@Injectable()
export class StoreHandFacts {
  constructor(private readonly records: RecordStore) {}

  async store({ id: skidId, clientId }: Pick<SkidPlace, 'id' | 'clientId'>, entries: readonly TimedHandFacts[], load: OpenLoad<Statements>): Promise<void> {
    const { tx, scope, problems, counts } = load;
    const readings = entries.map(({ line, at, readBy, minutesSinceBackwash, note }) => ({
      line,
      row: { id: newId(), clientId, skidId, at, readBy, minutesSinceBackwash, note },
    }));
    const { differing, replaced } = await this.records.store(tx, HAND_READINGS, readings, scope, problems);
    addCounts(counts, { kept: 0, known: 0, differing, replaced }); // the values are counted, not the sheet they stand on
    const stored = await this.records.stored(
      tx,
      HAND_READINGS,
      readings.map(({ row }) => row),
    );
    const idAt = new Map(stored.map(({ row }) => [row.at.getTime(), row.id]));

    const storeEach = async <Row extends object>(table: RecordTable<Row>, rowsOf: (entry: TimedHandFacts) => Row[]) => {
      const incoming = entries.flatMap((entry) => rowsOf(entry).map((row): IncomingRecord<Row> => ({ line: entry.line, row })));
      addCounts(counts, await this.records.store(tx, table, incoming, scope, problems));
    };
    await storeEach(HAND_VALUES, ({ at, facts }) => facts.values.map((value) => ({ handReadingId: idAt.get(at.getTime()) ?? '', clientId, ...value })));
    await storeEach(METER_READINGS, ({ at, facts }) =>
      facts.meters.map((meter) => ({ ...meter, clientId, at, kind: 'reading' as const, oldFinal: null, readingError: null })),
    );
    await storeEach(TANK_DIPS, ({ at, readBy, facts }) => facts.tanks.map((dip) => ({ ...dip, clientId, at, readBy })));
  }
}
