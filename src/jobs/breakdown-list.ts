import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, Database, NotFound, type Reader, readCursor, toPage, viewOf } from '../app/index.js';
import { mechanismInWords } from '../shared/failure-terms.js';
import { BreakdownPageView, type BreakdownQuery, BreakdownView } from './breakdowns.dto.js';
import { type BreakdownRow, BreakdownsRepository, findBreakdown } from './breakdowns.repository.js';
import { downMinutes, downTimeInWords } from './core/breakdown/down-time.js';
import { type HeldJob, holdJob } from './job-writes.repository.js';

/** Breakdowns, the open and the worst first. */
@Injectable()
export class BreakdownList {
  constructor(
    private readonly database: Database,
    private readonly repository: BreakdownsRepository,
    private readonly clock: Clock,
  ) {}

  async page(caller: Caller, query: BreakdownQuery): Promise<BreakdownPageView> {
    const offset = Number(readCursor(query.cursor, 1)?.[0] ?? 0);
    const { limit, severity, skidId, clientId, find } = query;
    const open = query.open === undefined ? undefined : query.open === 'true';
    const rows = await this.repository.page(caller, { open, severity, skidId, clientId, find, limit, offset });
    const page = toPage(
      rows,
      limit,
      (row) => toView(row, this.clock.now()),
      () => [offset + limit],
    );
    return viewOf(BreakdownPageView, { ...page, total: rows[0]?.total ?? 0 });
  }

  read(caller: Caller, jobId: string): Promise<BreakdownView> {
    return this.database.readFor(caller, (reader) => breakdownNow(reader, jobId, this.clock.now()));
  }
}

export async function breakdownNow(reader: Reader, jobId: string, now: Date): Promise<BreakdownView> {
  const row = await findBreakdown(reader, jobId);
  if (row === undefined) throw new NotFound('breakdown', jobId);
  return toView(row, now);
}

export interface HeldBreakdown {
  readonly job: HeldJob;
  readonly row: BreakdownRow;
}

/** The breakdown, its job held until the transaction ends: what two people do at once is done one after the other. */
export async function holdBreakdown(tx: Reader, jobId: string): Promise<HeldBreakdown> {
  const job = await holdJob(tx, jobId);
  const row = job === undefined ? undefined : await findBreakdown(tx, jobId);
  if (job === undefined || row === undefined) throw new NotFound('breakdown', jobId);
  return { job, row };
}

export async function holdOpenBreakdown(tx: Reader, jobId: string): Promise<HeldBreakdown> {
  const held = await holdBreakdown(tx, jobId);
  if (hasEnded(held.job)) throw new Conflict(`Job ${held.job.no} is ${held.job.state} already. Report it anew if it came back`);
  return held;
}

function toView({ total: _, takenById: __, ...row }: BreakdownRow, now: Date): BreakdownView {
  const ended = hasEnded(row);
  return viewOf(BreakdownView, {
    ...row,
    downMinutes: downMinutes(row),
    downTime: downTimeInWords({ ...row, ended, now }),
    mechanismInWords: mechanismInWords(row.mechanism),
  });
}

const hasEnded = ({ state }: { readonly state: string }): boolean => state === 'finished' || state === 'dropped';
