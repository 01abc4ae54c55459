import { Injectable } from '@nestjs/common';
import { newId } from '../app/index.js';
import type { DeliveryLabel, EventFact } from './core/event.js';
import type { OpenLoad } from './loading.js';
import { type ChangeOutcome, FittingsRepository } from './repositories/fittings.repository.js';
import { addCounts, RecordStore } from './repositories/record-store.repository.js';
import { CLEANS, METER_READINGS, type RecordTable, SERVICE_ENTRIES, TANK_DELIVERIES, TANK_DIPS } from './repositories/record-tables.js';
import type { SkidPlace } from './repositories/skids.repository.js';
import type { Statements } from './repositories/transactions.repository.js';

export interface TimedEvent {
  readonly line: number;
  readonly at: Date;
  readonly by: string;
  readonly event: EventFact;
}

const NO_LABEL: DeliveryLabel = { product: null, strengthValue: null, strengthBasis: null, densityKgL: null, expiresOn: null, fromTankId: null };

type Of<Kind extends EventFact['kind']> = Extract<EventFact, { kind: Kind }>;

/** Stores events, each in the table of its kind and each once. */
@Injectable()
export class StoreEvents {
  constructor(
    private readonly records: RecordStore,
    private readonly fittings: FittingsRepository,
  ) {}

  async store({ id: skidId, clientId }: Pick<SkidPlace, 'id' | 'clientId'>, events: readonly TimedEvent[], load: OpenLoad<Statements>): Promise<void> {
    const storeEach = async <Kind extends EventFact['kind'], Row extends object>(
      table: RecordTable<Row>,
      kinds: readonly Kind[],
      rowOf: (event: Of<Kind>, timed: TimedEvent) => Row,
    ) => {
      const ofKind = events.filter(({ event }) => (kinds as readonly string[]).includes(event.kind));
      const incoming = ofKind.map((timed) => ({ line: timed.line, row: rowOf(timed.event as Of<Kind>, timed) }));
      addCounts(load.counts, await this.records.store(load.tx, table, incoming, load.scope, load.problems));
    };
    await storeEach(CLEANS, ['clean'], ({ clean: kind, chemical, strengthMgL, contactMinutes, note }, { at }) => {
      return { id: newId(), clientId, skidId, kind, at, chemical, strengthMgL, contactMinutes, note };
    });
    await storeEach(METER_READINGS, ['reading', 'exchange'], (event, { at }) => {
      const oldFinal = event.kind === 'exchange' ? event.oldFinal : null;
      return { meterId: event.meterId, clientId, at, kind: event.kind, value: event.value, oldFinal, readingError: null };
    });
    await storeEach(TANK_DIPS, ['dip'], ({ tankId, levelM, strengthGL, readingErrorM }, { at, by }) => {
      return { tankId, clientId, at, levelM, strengthGL, readBy: by, readingError: readingErrorM };
    });
    await storeEach(TANK_DELIVERIES, ['delivery'], ({ tankId, volumeL, strengthGL, lot, label = NO_LABEL }, { at, by }) => {
      return { tankId, clientId, at, volumeL, strengthGL, lot, ...label, by };
    });
    await storeEach(SERVICE_ENTRIES, ['service'], ({ positionId, task, minutes, note }, { at, by }) => {
      return { id: newId(), clientId, skidId, positionId, task, at, minutes, doneBy: by, note };
    });
    for (const timed of events) await this.storePartChange(clientId, timed, load);
  }

  private async storePartChange(clientId: string, { line, at, by, event }: TimedEvent, { tx, counts, problems }: OpenLoad<Statements>): Promise<void> {
    let outcome: ChangeOutcome;
    if (event.kind === 'fitted') outcome = await this.fittings.fit(tx, { ...event, clientId, at, by });
    else if (event.kind === 'removed') outcome = await this.fittings.remove(tx, { ...event, clientId, at, by });
    else return;
    if (typeof outcome === 'object')
      problems.add('refused', line, event.kind === 'fitted' ? 'item' : 'position', event.kind === 'fitted' ? event.itemCode : null, outcome.refused);
    else counts[outcome] += 1;
  }
}
