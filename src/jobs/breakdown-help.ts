import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, Database, type KeyedRequest, KeyedWork } from '../app/index.js';
import { refuse } from './breakdown-ask.js';
import { breakdownNow, holdOpenBreakdown } from './breakdown-list.js';
import { editBreakdown, finishWithoutVisit } from './breakdown-rows.repository.js';
import type { BreakdownView, TelephoneDto } from './breakdowns.dto.js';
import type { BreakdownRow } from './breakdowns.repository.js';
import { timesAtOdds } from './core/breakdown/times-at-odds.js';
import { JobHooks } from './job-hooks.js';
import { addChange, editJob } from './job-writes.repository.js';

/** What is done about a breakdown before anybody goes there: somebody takes it, and helps by telephone. */
@Injectable()
export class BreakdownHelp {
  constructor(
    private readonly database: Database,
    private readonly work: KeyedWork,
    private readonly hooks: JobHooks,
    private readonly clock: Clock,
  ) {}

  /** "I have it": from then on nobody is told again. */
  take(caller: Caller, jobId: string, takeOver: boolean): Promise<BreakdownView> {
    return this.database.write(async (tx) => {
      const { job, row } = await holdOpenBreakdown(tx, jobId);
      const at = this.clock.now();
      if (row.takenById === caller.id) return breakdownNow(tx, jobId, at);
      if (row.takenBy !== null && !takeOver) throw new Conflict(`${row.takenBy} has it since ${inWords(row.takenAt)}. Send takeOver to take it over`);
      await editBreakdown(tx, jobId, { takenById: caller.id, takenBy: caller.name, takenAt: at });
      await editJob(tx, jobId, {});
      const change = { jobId, clientId: job.clientId, at, byId: caller.id, by: caller.name };
      await addChange(tx, { ...change, what: 'taken', from: row.takenBy ?? '', to: caller.name, toClient: true });
      await this.hooks.tellChanged(tx, job);
      return breakdownNow(tx, jobId, at);
    });
  }

  telephone(caller: Caller, key: KeyedRequest, jobId: string, input: TelephoneDto): Promise<BreakdownView> {
    return this.work.run(key, async (tx) => {
      const { job, row } = await holdOpenBreakdown(tx, jobId);
      const at = this.clock.now();
      const restoredAt = input.restoredAt == null ? row.restoredAt : new Date(input.restoredAt);
      const { note, ended, failureMode = row.failureMode, mechanism = row.mechanism, cause = row.cause } = input;
      refuse(faultsOfEnd(row, restoredAt, ended, at));
      const line = `${inWords(at)}, ${caller.name}: ${note}`;
      const telephone = row.telephone === '' ? line : `${row.telephone}\n${line}`;
      await editBreakdown(tx, jobId, { telephone, restoredAt, failureMode, mechanism, cause, ...(ended && { endedBy: 'telephone' }) });
      await addChange(tx, { jobId, clientId: job.clientId, at, byId: caller.id, by: caller.name, what: 'telephone', note, toClient: true });
      if (ended) {
        await finishWithoutVisit(tx, job, { by: caller, at, note: 'Ended by telephone' });
        await this.hooks.tellFinished(tx, job);
      } else {
        await editJob(tx, jobId, {});
        await this.hooks.tellChanged(tx, job);
      }
      return breakdownNow(tx, jobId, at);
    });
  }
}

/** A skid that stopped is not done with before it is known when it gave water again: else its down time would never be known. */
function faultsOfEnd(row: BreakdownRow, restoredAt: Date | null, ended: boolean, now: Date) {
  const faults = timesAtOdds({ ...row, restoredAt, repairMinutes: null }, now);
  if (ended && row.downFrom !== null && restoredAt === null) {
    faults.push({ field: 'restoredAt', message: `the skid stopped at ${row.downFrom.toISOString()}: say when it gave water again` });
  }
  return faults;
}

const inWords = (at: Date | null): string => (at === null ? '' : `${at.toISOString().slice(0, 16).replace('T', ' ')} UTC`);
