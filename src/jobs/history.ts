import { Injectable } from '@nestjs/common';
import { type Caller, Clock, InvalidRequest, type KeyedRequest, KeyedWork, NotFound, type Reader, Recompute, runnerOf, viewOf } from '../app/index.js';
import { RecordWork, type WorkEvent } from '../intake/index.js';
import { type OldWork, type ReadOldWork, type RowFault, readOldWork } from './core/breakdown/old-work.js';
import { type HistoryDto, HistoryProblemView, HistoryView, type OldWorkDto } from './history.dto.js';
import { finishedJobs, holdSkid, type SkidOfHistory, storeOldJobs } from './history.repository.js';

/** Older work, loaded as finished jobs: what was done stands in the service log too, and failures count in the indicators. */
@Injectable()
export class History {
  constructor(
    private readonly work: KeyedWork,
    private readonly intake: RecordWork,
    private readonly recompute: Recompute,
    private readonly clock: Clock,
  ) {}

  load(caller: Caller, key: KeyedRequest, { skidId, dryRun, rows }: HistoryDto): Promise<HistoryView> {
    return this.work.run(key, async (tx) => {
      const skid = await holdSkid(tx, skidId);
      if (skid === undefined) throw new NotFound('skid', skidId);
      const old = rows.map((row) => oldWorkOf(caller.name, row));
      const read = readOldWork(old, skid.timeZone, this.clock.now());
      const problems = [...read.faults, ...(await this.faultsOfIntake(tx, skid, old))].sort((a, b) => a.index - b.index);
      if (problems.length > 0 && !dryRun) throw new InvalidRequest('Rows of the record need a change; nothing was stored', problems.map(toPointer));
      const news = await newOnes(tx, skid, read.rows);
      if (news.length > 0 && !dryRun) await this.store(tx, caller, skid, news);
      return viewOf(HistoryView, {
        dryRun,
        rows: rows.length,
        made: news.length,
        known: read.rows.length - news.length,
        problems: problems.map((fault) => viewOf(HistoryProblemView, { row: fault.index + 1, ...toPointer(fault) })),
      });
    });
  }

  /** The entries of the service log must be possible like any other. */
  private async faultsOfIntake(tx: Reader, { id: skidId }: SkidOfHistory, rows: readonly OldWork[]): Promise<RowFault[]> {
    const faults = await this.intake.faults(tx, { skidId, events: rows.map((row) => eventOf({ ...row, at: new Date(0) })), hand: null });
    return faults.flatMap(({ event, column, value, message }) => {
      const field = column === 'task' ? 'title' : (column ?? '');
      return event === null ? [] : [{ index: event, field, message: `${value ?? ''} ${message}`.trim() }];
    });
  }

  private async store(tx: Reader, caller: Caller, skid: SkidOfHistory, work: readonly ReadOldWork[]): Promise<void> {
    const at = this.clock.now();
    const about = { skidId: skid.id, clientId: skid.clientId, by: caller.name, name: `Older record, ${work.length} jobs`, at };
    const recorded = await this.intake.record(tx, { ...about, events: work.map(eventOf), hand: null });
    if (recorded.kind === 'refused') throw new InvalidRequest(recorded.problems.map(({ message }) => message).join('. '));
    await storeOldJobs(tx, skid, work, { by: caller, at, loadNo: recorded.loadNo });
    await this.recompute.later(skid.id, runnerOf(tx));
  }
}

function oldWorkOf(caller: string, { at, title, kind, positionId, minutes, by = caller, note, failure }: OldWorkDto): OldWork {
  return { at, title, kind, positionId, minutes, by, note, failure };
}

/** Those that are not there yet, each once: the same moment and title at the skid is the same work. */
async function newOnes(tx: Reader, { id }: SkidOfHistory, rows: readonly ReadOldWork[]): Promise<ReadOldWork[]> {
  const keyOf = (title: string, at: Date | null) => `${at?.toISOString()} ${title}`;
  const there = await finishedJobs(tx, id, [...new Set(rows.map(({ title }) => title))]);
  const seen = new Set(there.map(({ title, finishedAt }) => keyOf(title, finishedAt)));
  return rows.filter(({ title, at }) => {
    const key = keyOf(title, at);
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

function eventOf({ at, positionId, title, minutes, note }: Pick<ReadOldWork, 'at' | 'positionId' | 'title' | 'minutes' | 'note'>): WorkEvent {
  return { at, event: { kind: 'service', positionId, task: title, minutes, note } };
}

const toPointer = ({ index, field, message }: RowFault) => ({ pointer: `#/rows/${index}/${field}`, message });
