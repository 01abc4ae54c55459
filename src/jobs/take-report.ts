import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, Database, NotFound, type Reader, viewOf } from '../app/index.js';
import { isSignalCode, SIGNALS } from '../shared/signals.js';
import { ApplyReport } from './apply-report.js';
import type { ReportProblem } from './core/judge-report.js';
import { summaryOf } from './core/report-summary.js';
import { addChange, type HeldJob, holdJob } from './job-writes.repository.js';
import { ReportProblemView } from './jobs.dto.js';
import { ReportIdUsed, SheetNotComplete } from './jobs.errors.js';
import { type JudgedReport, JudgeSheet } from './judge-sheet.js';
import { attempt, findReport, lastCounting, type ReportState, settleReport, storeAgain, storeReport, toJson } from './report-writes.repository.js';
import { type JobReportDto, ReportAnswerView } from './reports.dto.js';

/**
 * Takes a job sheet in, once. What is wrong with one that is filled in at this moment is refused, so that it can be mended at once; one that was kept on
 * a device is stored in every case, and what is wrong with it is settled later. Nothing is lost, and nothing counts twice.
 */
@Injectable()
export class TakeReport {
  constructor(
    private readonly database: Database,
    private readonly judge: JudgeSheet,
    private readonly apply: ApplyReport,
    private readonly clock: Clock,
  ) {}

  take(caller: Caller, jobId: string, report: JobReportDto): Promise<ReportAnswerView> {
    return this.database.write(async (tx) => {
      const job = await this.hold(tx, jobId);
      const earlier = await findReport(tx, report.id);
      if (earlier !== null) {
        if (earlier.jobId === jobId && earlier.contentHash === hashOf(report))
          return answer(report.id, earlier.state as ReportState, earlier.problems as never, job.state);
        throw new ReportIdUsed(
          'A job sheet with this id was sent before with another content. A sheet that is held is corrected by PUT; another one needs an id of its own',
        );
      }
      return this.store(tx, caller, caller, job, report, 'new');
    });
  }

  /** A sheet that is held is filled in again. */
  correct(caller: Caller, jobId: string, reportId: string, report: JobReportDto): Promise<ReportAnswerView> {
    return this.database.write(async (tx) => {
      const job = await this.hold(tx, jobId);
      const held = await findReport(tx, reportId);
      if (held === null || held.jobId !== jobId) throw new NotFound('job sheet', reportId);
      if (held.state !== 'held') throw new Conflict(`The sheet is not held: it ${held.state === 'counts' ? 'counts already' : `is ${held.state}`}`);
      if (report.id !== reportId) throw new Conflict(`The sheet in the address is ${reportId}, the one that was sent ${report.id}`);
      return this.store(tx, caller, { id: held.byId, name: held.by }, job, report, 'held');
    });
  }

  private async hold(tx: Reader, jobId: string): Promise<HeldJob> {
    const job = await holdJob(tx, jobId);
    if (job === undefined) throw new NotFound('job', jobId);
    return job;
  }

  private async store(
    tx: Reader,
    caller: Caller,
    by: { id: string; name: string },
    job: HeldJob,
    report: JobReportDto,
    earlier: 'new' | 'held',
  ): Promise<ReportAnswerView> {
    const judged = await this.judge.judge(tx, job, report, by.name);
    await (earlier === 'held' ? storeAgain : storeReport)(tx, rowOf(job, by, report, judged, this.clock.now()));
    if (job.state === 'finished') return this.asSecond(tx, by, job, report);
    const dropped =
      job.state === 'dropped' ? [{ pointer: '#', message: `Job ${job.no} was dropped: a manager has to take it up again before this sheet can count` }] : [];
    const problems = [...judged.problems, ...dropped];
    const found = problems.length > 0 ? problems : await attempt(tx, () => this.apply.apply(tx, caller, by, job, report, judged));
    if (found.length === 0) return answer(report.id, 'counts', [], report.outcome === 'finished' ? 'finished' : 'under way');
    if (!report.offline) throw new SheetNotComplete('The job sheet has answers that need a change', found);
    await settleReport(tx, report.id, { state: 'held', problems: toJson(found) });
    await addChange(tx, {
      jobId: job.id,
      clientId: job.clientId,
      byId: by.id,
      by: by.name,
      what: 'sheet held',
      note: found
        .map(({ message }) => message)
        .join('; ')
        .slice(0, 1000),
    });
    return answer(report.id, 'held', found, job.state);
  }

  private async asSecond(tx: Reader, by: { id: string; name: string }, job: HeldJob, report: JobReportDto): Promise<ReportAnswerView> {
    const first = await lastCounting(tx, job.id);
    const who = first === null ? '' : ` by the sheet of ${first.by}, received ${first.receivedAt.toISOString().slice(0, 16).replace('T', ' ')} UTC`;
    const problems = [
      { pointer: '#', message: `Job ${job.no} is finished already${who}. This sheet is kept as a second one; a manager settles which of them counts` },
    ];
    await settleReport(tx, report.id, { state: 'second', problems });
    await addChange(tx, { jobId: job.id, clientId: job.clientId, byId: by.id, by: by.name, what: 'second sheet', note: problems[0]?.message ?? '' });
    return answer(report.id, 'second', problems, job.state);
  }
}

function rowOf(job: HeldJob, by: { id: string; name: string }, report: JobReportDto, { facts }: JudgedReport, now: Date) {
  const summary = summaryOf(report, {
    tasks: facts.tasks,
    positions: facts.positions,
    items: new Map([...facts.items].map(([id, { name }]) => [id, name])),
    meters: new Map(facts.meters.map(({ id, kind, positionName }) => [id, `${positionName}, ${kind}`])),
    signals: (code) => (isSignalCode(code) ? SIGNALS[code].label : code),
  });
  return {
    id: report.id,
    jobId: job.id,
    clientId: job.clientId,
    byId: by.id,
    by: by.name,
    startedAt: new Date(report.startedAt),
    finishedAt: new Date(report.finishedAt),
    receivedAt: now,
    state: 'held' satisfies ReportState,
    minutes: report.minutes,
    content: toJson(report),
    contentHash: hashOf(report),
    problems: [],
    summary: toJson(summary),
    signedBy: report.signedBy.trim(),
  };
}

/** Whether a sheet waited on its device does not make it another one. */
function hashOf({ offline: _, ...content }: JobReportDto): string {
  return createHash('sha256').update(JSON.stringify(content)).digest('hex');
}

export function answer(id: string, state: ReportState, problems: readonly ReportProblem[], jobState: HeldJob['state']): ReportAnswerView {
  return viewOf(ReportAnswerView, { id, state, problems: problems.map((problem) => viewOf(ReportProblemView, problem)), jobState });
}
