import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { type Caller, Clock, type FieldProblem, InvalidRequest, type KeyedRequest } from '../app/index.js';
import type { FieldFault } from './core/event.js';
import { checkHandEntry, type HandEntry } from './core/hand-entry.js';
import { type TimeReader, timeReader } from './core/read-time.js';
import { RowTimes } from './core/row-times.js';
import { Loading, type LoadReport, type OpenLoad, type PreviewRow } from './loading.js';
import { type SkidPlace, SkidsRepository } from './repositories/skids.repository.js';
import { StoreHandFacts, type TimedHandFacts } from './store-hand-facts.js';

/** A line of a back-log, or one reading of a request. */
export interface WrittenEntry {
  readonly line: number;
  readonly atText: string;
  readonly entry: HandEntry;
  /** What was wrong with it before its meaning was looked at */
  readonly faults: readonly FieldFault[];
}

export interface HandReadingRequest {
  readonly skid: SkidPlace;
  readonly caller: Caller;
  readonly name: string;
  readonly timeFormat: string;
  readonly entries: readonly WrittenEntry[];
  readonly dryRun: boolean;
  readonly replaceDiffering: boolean;
  /** A form is mended before it is sent again; of a pasted back-log the good rows are kept */
  readonly onFault: 'refuse all' | 'refuse the row';
  readonly idempotency: KeyedRequest;
}

const PREVIEW_ROWS = 10;

/** Readings that a person took from the gauges of a skid. */
@Injectable()
export class EnterHandReadings {
  constructor(
    private readonly loading: Loading,
    private readonly skids: SkidsRepository,
    private readonly facts: StoreHandFacts,
    private readonly clock: Clock,
  ) {}

  async enter(request: HandReadingRequest): Promise<LoadReport> {
    const { skid, entries, timeFormat, onFault, dryRun } = request;
    const readTime = timeReader(timeFormat, skid.timeZone, this.clock.now().getTime());
    if (readTime === undefined) throw new InvalidRequest(`"${timeFormat}" is no format of a time`);
    const machines = await this.skids.machinesOf(skid.id);
    const faulty: { line: number; fault: FieldFault }[] = [];
    const good: TimedHandFacts[] = [];
    const doubtful: number[] = [];

    const times = new RowTimes<Omit<TimedHandFacts, 'at'>>((row, atMs, isDoubtful) => {
      good.push({ ...row, at: new Date(atMs) });
      if (isDoubtful) doubtful.push(row.line);
    });
    for (const { line, atText, entry, faults } of entries) {
      const { time, fault } = timeOf(readTime, atText);
      const checked = checkHandEntry(entry, machines);
      const all = [...(fault === undefined ? [] : [fault]), ...faults, ...(checked.kind === 'faults' ? checked.faults : [])];
      faulty.push(...all.map((each) => ({ line, fault: each })));
      if (all.length > 0 || checked.kind === 'faults' || time === undefined) continue;
      const { minutesSinceBackwash, note, readBy } = entry;
      times.add({ line, minutesSinceBackwash, note, readBy, facts: checked.facts }, time);
    }
    times.end();
    if (onFault === 'refuse all' && !dryRun && faulty.length > 0) throw new InvalidRequest('Some readings cannot be so', faulty.map(toFieldProblem));

    const sha256 = createHash('sha256').update(JSON.stringify(entries)).digest('hex');
    return this.loading.run({ ...request, kind: 'hand' }, async (load: OpenLoad) => {
      for (const { line, fault } of faulty) load.problems.add('refused', line, fault.column, fault.value, fault.message);
      for (const line of doubtful) load.problems.add('doubtful', line, 'at', null, 'lies in the hour that the end of summer time doubles; taken as the first');
      await this.facts.store(skid, good, load);
      return { rows: entries.length, sha256, preview: good.slice(0, PREVIEW_ROWS).map(toPreview) };
    });
  }
}

function timeOf(readTime: TimeReader, text: string) {
  const time = readTime(text);
  return time.kind === 'bad-time' ? { time: undefined, fault: { column: 'at', value: text, message: time.reason } } : { time, fault: undefined };
}

function toFieldProblem({ line, fault: { column, value, message } }: { line: number; fault: FieldFault }): FieldProblem {
  return { pointer: `#/readings/${line - 1}${column === null ? '' : `/${column}`}`, message: value === null ? message : `${value} ${message}` };
}

function toPreview({ line, at, facts }: TimedHandFacts): PreviewRow {
  const values = facts.values.map(({ signal, entered, enteredUnit }) => ({ name: signal, value: entered, unit: enteredUnit }));
  const meters = facts.meters.map(({ meterId, value }) => ({ name: `meter ${meterId}`, value, unit: null }));
  const tanks = facts.tanks.map(({ tankId, levelM }) => ({ name: `tank ${tankId}`, value: levelM, unit: 'm' }));
  return { line, at, fields: [...values, ...meters, ...tanks] };
}
