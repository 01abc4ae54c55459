import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Database, EditedMeanwhile, given } from '../app/index.js';
import { refuse } from './breakdown-ask.js';
import { breakdownNow, holdBreakdown } from './breakdown-list.js';
import { editBreakdown } from './breakdown-rows.repository.js';
import type { BreakdownEditDto, BreakdownView } from './breakdowns.dto.js';
import { timesAtOdds } from './core/breakdown/times-at-odds.js';
import { JobHooks } from './job-hooks.js';
import { addChange, editJob } from './job-writes.repository.js';

/** What was found out of a breakdown: also after its job is finished, for causes often show later. */
@Injectable()
export class BreakdownEdit {
  constructor(
    private readonly database: Database,
    private readonly hooks: JobHooks,
    private readonly clock: Clock,
  ) {}

  edit(caller: Caller, jobId: string, version: number, { downFrom, restoredAt, ...rest }: BreakdownEditDto): Promise<BreakdownView> {
    return this.database.write(async (tx) => {
      const { job, row } = await holdBreakdown(tx, jobId);
      if (job.version !== version) throw new EditedMeanwhile('The job was edited after you read it. Read it again, and make your change to that');
      const change = given({ ...rest, downFrom: momentOrNull(downFrom), restoredAt: momentOrNull(restoredAt) });
      const at = this.clock.now();
      refuse(timesAtOdds({ ...row, ...change }, at));
      await editBreakdown(tx, jobId, change);
      await editJob(tx, jobId, {});
      const told = { jobId, clientId: job.clientId, at, byId: caller.id, by: caller.name, toClient: true };
      for (const [field, to] of Object.entries(change)) {
        const from = row[field as keyof typeof change];
        if (inWords(from) !== inWords(to)) await addChange(tx, { ...told, what: FIELDS[field as keyof typeof FIELDS], from: inWords(from), to: inWords(to) });
      }
      await this.hooks.tellChanged(tx, job);
      return breakdownNow(tx, jobId, at);
    });
  }
}

const FIELDS = {
  severity: 'severity',
  downFrom: 'down from',
  restoredAt: 'restored at',
  repairMinutes: 'minutes of repair',
  failureMode: 'failure mode',
  mechanism: 'mechanism',
  cause: 'cause',
  remedy: 'remedy',
} as const satisfies Record<keyof BreakdownEditDto, string>;

const momentOrNull = (value: string | null | undefined): Date | null | undefined => (value == null ? value : new Date(value));
const inWords = (value: Date | string | number | null | undefined): string => (value instanceof Date ? value.toISOString() : String(value ?? ''));
