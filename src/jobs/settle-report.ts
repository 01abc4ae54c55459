import { Injectable } from '@nestjs/common';
import { plainToInstance } from 'class-transformer';
import { type Caller, Clock, Conflict, Database, NotFound, type Reader } from '../app/index.js';
import { ApplyReport } from './apply-report.js';
import { addChange, type HeldJob, holdJob } from './job-writes.repository.js';
import { SheetNotComplete } from './jobs.errors.js';
import { JudgeSheet } from './judge-sheet.js';
import { findReport, lastCounting, type StoredReport, settleReport } from './report-writes.repository.js';
import { JobReportDto, type ReportAnswerView, type SettleDto } from './reports.dto.js';
import { TakeBackReport } from './take-back-report.js';
import { answer } from './take-report.js';

/** Settles which of two sheets of a job counts, or gives up one that is held. */
@Injectable()
export class SettleReport {
  constructor(
    private readonly database: Database,
    private readonly judge: JudgeSheet,
    private readonly apply: ApplyReport,
    private readonly takeBack: TakeBackReport,
    private readonly clock: Clock,
  ) {}

  settle(caller: Caller, jobId: string, reportId: string, { choice, note }: SettleDto): Promise<ReportAnswerView> {
    return this.database.write(async (tx) => {
      const job = await holdJob(tx, jobId);
      const report = await findReport(tx, reportId);
      if (job === undefined || report === null || report.jobId !== jobId) throw new NotFound('job sheet', reportId);
      if (report.state !== 'second' && report.state !== 'held')
        throw new Conflict(`There is nothing to settle: the sheet ${report.state === 'counts' ? 'counts' : 'was set aside'}`);
      if (report.state === 'held' && choice === 'take this one')
        throw new Conflict('This sheet is held because of what is wrong with it: correct it by PUT, and it counts');
      const settled = { settledBy: caller.name, settledAt: this.clock.now(), settledNote: note };
      await addChange(tx, { jobId, clientId: job.clientId, byId: caller.id, by: caller.name, what: 'settled', to: choice, note });
      if (choice === 'keep the first') {
        await settleReport(tx, reportId, { ...settled, state: 'set aside', problems: [] });
        return answer(reportId, 'set aside', [], job.state);
      }
      return this.exchange(tx, caller, job, report, settled);
    });
  }

  private async exchange(tx: Reader, caller: Caller, job: HeldJob, stored: StoredReport, settled: object): Promise<ReportAnswerView> {
    const first = await lastCounting(tx, job.id);
    if (first !== null) {
      const inTheWay = await this.takeBack.takeBack(tx, caller, job, first);
      if (inTheWay.length > 0) throw new Conflict(`The first sheet cannot be taken back: ${inTheWay.join('; ')}`);
      await settleReport(tx, first.id, { ...settled, state: 'set aside' });
    }
    const report = plainToInstance(JobReportDto, stored.content);
    const by = { id: stored.byId, name: stored.by };
    const judged = await this.judge.judge(tx, job, report, by.name);
    const problems = judged.problems.length > 0 ? judged.problems : await this.apply.apply(tx, caller, by, job, report, judged);
    // Thrown, so that the first one counts as before.
    if (problems.length > 0) throw new SheetNotComplete('This sheet cannot count as it is', problems);
    await settleReport(tx, stored.id, settled);
    return answer(stored.id, 'counts', [], report.outcome === 'finished' ? 'finished' : 'under way');
  }
}
