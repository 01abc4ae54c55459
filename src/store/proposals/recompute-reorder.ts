import { Injectable } from '@nestjs/common';
import { Clock, Database, Queue, type Reader } from '../../app/index.js';
import { dayOf } from '../../registry/index.js';
import { changedItems } from './changed-items.repository.js';
import { ComputeLines } from './compute-lines.js';
import { endPassedDecisions } from './decisions.repository.js';
import { dropLines, keepLearnt, keepRun, type Learnt, lastRun, lockReorder, readLearnt, storeLines } from './reorder.repository.js';

const ALL = 'reorder-all';
const CHANGED = 'reorder-changed';
/** What items have in common changes slowly. */
const FIT_DAYS = 7;
const FIT_ITEMS = 0.1;
/** Beyond so many it is simpler to make all anew. */
const MANY = 1500;
const LINES_AT_ONCE = 1000;
const DAY_MS = 86_400_000;

/** Makes the reorder list again: all of it each night, and what has changed every ten minutes. Made twice it is the same. */
@Injectable()
export class RecomputeReorder {
  constructor(
    private readonly database: Database,
    private readonly queue: Queue,
    private readonly computing: ComputeLines,
    private readonly clock: Clock,
  ) {
    queue.add({ name: ALL, cron: '40 1 * * *', work: () => this.all() });
    queue.add({ name: CHANGED, cron: '*/10 * * * *', work: () => this.changed() });
  }

  /** Asks for the whole list to be made again. */
  async later(): Promise<void> {
    await this.queue.send(ALL, {}, { key: ALL });
  }

  async all(): Promise<void> {
    const started = this.clock.now();
    const { prisma } = this.database;
    const from = performance.now();
    const store = await this.computing.read(prisma, null);
    const learnt = await this.learn(store.items.length, () => this.computing.fit(store));
    const lines = await this.computing.lines(prisma, store, learnt);
    await this.store(lines, null, async (tx) => {
      const milliseconds = Math.round(performance.now() - from);
      await keepRun(tx, { computedAt: started, seenUntil: started, lines: lines.length, milliseconds });
    });
  }

  /** Of items of which something was entered since the last time. */
  async changed(): Promise<void> {
    const { seenUntil } = await lastRun(this.database.prisma);
    if (seenUntil === null) return this.all();
    const started = this.clock.now();
    const items = await changedItems(this.database.prisma, seenUntil);
    if (items.length > MANY) return this.all();
    if (items.length > 0) await this.ofItems(items);
    await this.database.write((tx) => keepRun(tx, { seenUntil: started }));
  }

  async ofItems(asked: readonly string[]): Promise<void> {
    const { prisma } = this.database;
    const store = await this.computing.read(prisma, asked);
    const lines = await this.computing.lines(prisma, store, await this.learnt());
    await this.store(lines, [...asked, ...store.items.map(({ item }) => item.id)], async () => {});
  }

  /** What was learnt last; before anything was, what a store knows that has no past. */
  async learnt(reader: Reader = this.database.prisma): Promise<Learnt> {
    const known = await readLearnt(reader);
    if (known !== null) return known;
    const nothing = { places: [], suppliesSite: () => null, items: [] };
    return { fit: this.computing.fit(nothing), record: await this.computing.record(reader) };
  }

  private async learn(items: number, fit: () => Learnt['fit']): Promise<Learnt> {
    const { prisma } = this.database;
    const now = this.clock.now();
    const known = await readLearnt(prisma);
    const isOld = known === null || now.getTime() - known.fittedAt.getTime() > FIT_DAYS * DAY_MS || Math.abs(items - known.items) > FIT_ITEMS * known.items;
    const learnt = { fit: isOld ? fit() : known.fit, record: await this.computing.record(prisma) };
    await this.database.write((tx) => keepLearnt(tx, learnt, isOld ? now : known.fittedAt, isOld ? items : known.items));
    return learnt;
  }

  private async store(
    lines: Awaited<ReturnType<ComputeLines['lines']>>,
    itemIds: readonly string[] | null,
    also: (tx: Reader) => Promise<void>,
  ): Promise<void> {
    const at = this.clock.now();
    await this.database.write(async (tx) => {
      await lockReorder(tx);
      const rows = lines.map(({ facts, line, detail }) => ({ itemId: facts.item.id, placeId: line.place.id, detail, needMean: line.computed.need.mean }));
      for (let first = 0; first < rows.length; first += LINES_AT_ONCE) await storeLines(tx, rows.slice(first, first + LINES_AT_ONCE), at);
      await dropLines(tx, itemIds, rows);
      await endPassedDecisions(tx, itemIds, dayOf(at), at);
      await also(tx);
    });
  }
}
