import { Injectable } from '@nestjs/common';
import { addDays } from 'date-fns/addDays';
import {
  type Caller,
  Clock,
  Database,
  faultIn,
  given,
  InvalidRequest,
  type KeyedRequest,
  KeyedWork,
  type PageOf,
  type Reader,
  Recompute,
  runnerOf,
  toPage,
  type View,
} from '../app/index.js';
import { dateOf, dayOf } from './days.js';
import type { KeptRow, ListQuery, NamedRecords } from './named-records.repository.js';

/** What the registers share: reading what the caller may see, and writing in one transaction, after which the skid is judged anew. */
@Injectable()
export abstract class Register<Row extends KeptRow, Input extends object, Change extends object, V extends View> {
  constructor(
    protected readonly database: Database,
    protected readonly work: KeyedWork,
    protected readonly recompute: Recompute,
    protected readonly clock: Clock,
  ) {}

  protected abstract readonly records: NamedRecords<Row>;
  protected abstract view(row: Row): V;
  protected abstract nameOf(row: Row): string;

  /** The columns of a new record. Refuses what contradicts other records. */
  protected async newColumns(_tx: Reader, input: Input, _caller: Caller): Promise<object> {
    return given(input);
  }

  /** The columns that a change sets. Refuses what contradicts other records or the rest of this one. */
  protected async changedColumns(_tx: Reader, _row: Row, change: Change): Promise<object> {
    return given(change);
  }

  /** Refuses to end what others still need. */
  protected async checkEnd(_tx: Reader, _row: Row): Promise<void> {}

  /** The skids whose conclusions depend on the record */
  protected async skidsJudgedBy(_tx: Reader, _row: Row): Promise<readonly string[]> {
    return [];
  }

  async list(caller: Caller, query: ListQuery, where: object): Promise<PageOf<V>> {
    const rows = await this.database.readFor(caller, (reader) => this.records.list(reader, query, where));
    return toPage(
      rows,
      query.limit,
      (row) => this.view(row),
      (row) => [this.nameOf(row), row.id],
    );
  }

  async read(caller: Caller, id: string): Promise<V> {
    return this.view(await this.database.readFor(caller, (reader) => this.records.find(reader, id)));
  }

  create(caller: Caller, key: KeyedRequest, input: Input): Promise<V> {
    return this.work.run(key, async (tx) => this.judged(tx, await this.records.create(tx, await this.newColumns(tx, input, caller))));
  }

  edit(id: string, version: number, change: Change): Promise<V> {
    return this.database.write(async (tx) => {
      const row = await this.records.find(tx, id);
      if (row.endedOn !== null) throw new InvalidRequest(`It ended on ${dayOf(row.endedOn)} and cannot be edited`);
      return this.judged(tx, await this.records.edit(tx, id, version, await this.changedColumns(tx, row, change)));
    });
  }

  async end(id: string, version: number, on: string): Promise<void> {
    // Where it is latest in the world, it is at most a day later than in UTC.
    if (dateOf(on) > addDays(this.clock.now(), 1)) throw faultIn('on', 'must not be in the future');
    await this.database.write(async (tx) => {
      const row = await this.records.find(tx, id);
      if (row.endedOn !== null) throw new InvalidRequest(`It ended on ${dayOf(row.endedOn)} already`);
      await this.checkEnd(tx, row);
      await this.judged(tx, await this.records.end(tx, id, version, on));
    });
  }

  protected async judged(tx: Reader, row: Row): Promise<V> {
    for (const skidId of await this.skidsJudgedBy(tx, row)) await this.recompute.later(skidId, runnerOf(tx));
    return this.view(row);
  }
}
