import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { type Reader, runnerOf } from '../app/index.js';
import { type EventFact, type FieldFault, faultsOfEvent } from './core/event.js';
import { checkHandEntry, type HandEntry } from './core/hand-entry.js';
import type { Problem } from './core/problem-list.js';
import { ProblemList } from './core/problem-list.js';
import type { OpenLoad } from './loading.js';
import { LoadsRepository } from './repositories/loads.repository.js';
import { noCounts } from './repositories/record-store.repository.js';
import { SkidsRepository } from './repositories/skids.repository.js';
import { TakenBackRecords } from './repositories/taken-back-records.repository.js';
import type { Statements } from './repositories/transactions.repository.js';
import { StoreEvents } from './store-events.js';
import { StoreHandFacts } from './store-hand-facts.js';

/** Something that a job found or did; `at` where it was not at the end of the work. */
export interface WorkEvent {
  readonly at: Date;
  readonly event: EventFact;
}

export interface WorkRecord {
  readonly skidId: string;
  readonly clientId: string;
  readonly by: string;
  /** What the load is called: the number and title of the job */
  readonly name: string;
  /** When the gauges were read */
  readonly at: Date;
  readonly events: readonly WorkEvent[];
  readonly hand: HandEntry | null;
}

/** Where in the record a fault lies: an event by its place in the list, or the reading of the gauges. */
export interface WorkFault extends FieldFault {
  readonly event: number | null;
}

export type RecordedWork = { readonly kind: 'recorded'; readonly loadNo: number } | { readonly kind: 'refused'; readonly problems: readonly Problem[] };

/** Takes in what a job found and did: the same facts, the same checks and the same tables as every other way in, inside the transaction of the job. */
@Injectable()
export class RecordWork {
  constructor(
    private readonly skids: SkidsRepository,
    private readonly loads: LoadsRepository,
    private readonly events: StoreEvents,
    private readonly hand: StoreHandFacts,
    private readonly takenBack: TakenBackRecords,
  ) {}

  /** Everything that cannot be so. */
  async faults(tx: Reader, { skidId, events, hand }: Pick<WorkRecord, 'skidId' | 'events' | 'hand'>): Promise<WorkFault[]> {
    const machines = await this.skids.machinesOf(skidId, runnerOf(tx) as Statements);
    const ofEvents = events.flatMap(({ event }, at) => faultsOfEvent(event, machines).map((fault) => ({ ...fault, event: at })));
    if (hand === null) return ofEvents;
    const checked = checkHandEntry(hand, machines);
    return checked.kind === 'facts' ? ofEvents : [...ofEvents, ...checked.faults.map((fault) => ({ ...fault, event: null }))];
  }

  /** Stores what `faults` found nothing wrong with. Refused: a part change that contradicts what is known; then nothing may be kept. */
  async record(tx: Reader, work: WorkRecord): Promise<RecordedWork> {
    const { skidId, clientId, by, name, at, events, hand } = work;
    const statements = runnerOf(tx) as Statements;
    const { id, no } = await this.loads.open(statements, { clientId, skidId, kind: 'job', name, by, at });
    const scope = { skidId, loadNo: no, replaceDiffering: true };
    const load: OpenLoad<Statements> = { tx: statements, scope, problems: new ProblemList(), counts: noCounts() };
    const place = { id: skidId, clientId };
    await this.events.store(
      place,
      events.map(({ at: moment, event }, index) => ({ line: index + 1, at: moment, by, event })),
      load,
    );
    if (hand !== null) {
      const checked = checkHandEntry(hand, await this.skids.machinesOf(skidId, statements));
      if (checked.kind === 'facts') {
        const { minutesSinceBackwash, note, readBy } = hand;
        await this.hand.store(place, [{ line: events.length + 1, at, minutesSinceBackwash, note, readBy, facts: checked.facts }], load);
      }
    }
    const report = load.problems.report();
    const refused = report.listed.filter(({ kind }) => kind === 'refused');
    if (refused.length > 0) return { kind: 'refused', problems: refused };
    const sha256 = createHash('sha256')
      .update(JSON.stringify([events, hand]))
      .digest('hex');
    const doubtful = load.problems.count('doubtful');
    await this.loads.close(statements, id, { ...load.counts, sha256, doubtful, refused: 0, problems: { rows: events.length, ...report } });
    return { kind: 'recorded', loadNo: no };
  }

  /** Takes the facts of a load out of the record, and keeps them aside. */
  takeBack(tx: Reader, skidId: string, loadNo: number, byLoadNo: number): Promise<void> {
    return this.takenBack.takeBack(tx, skidId, loadNo, byLoadNo);
  }
}
