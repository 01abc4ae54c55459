import { Injectable } from '@nestjs/common';
import { type Caller, type Reader, Recompute, runnerOf } from '../app/index.js';
import { RecordWork } from '../intake/index.js';
import { ServiceStates } from '../registry/index.js';
import { editBreakdown, openJob } from './breakdown-rows.repository.js';
import type { ReportProblem } from './core/judge-report.js';
import { JobHooks } from './job-hooks.js';
import { addChange, editJob, type HeldJob, STATE_OF_SKID } from './job-writes.repository.js';
import type { JudgedReport } from './judge-sheet.js';
import { MakeJobs } from './make-jobs.js';
import { handEntryOf } from './report-events.js';
import { fittedNow } from './report-facts.repository.js';
import { ReportProofs } from './report-proofs.js';
import { ReportStock } from './report-stock.js';
import { endDues, setOutcomes, settleReport } from './report-writes.repository.js';
import type { JobReportDto } from './reports.dto.js';

/** Makes a report count: its facts, its parts and what it settles, all in one transaction. */
@Injectable()
export class ApplyReport {
  constructor(
    private readonly record: RecordWork,
    private readonly proofs: ReportProofs,
    private readonly states: ServiceStates,
    private readonly stock: ReportStock,
    private readonly makeJobs: MakeJobs,
    private readonly hooks: JobHooks,
    private readonly recompute: Recompute,
  ) {}

  /** Answers what stands in the way; then the caller undoes what was written. The report itself is stored already. */
  async apply(
    tx: Reader,
    caller: Caller,
    by: { id: string; name: string },
    job: HeldJob,
    report: JobReportDto,
    { facts, events }: JudgedReport,
  ): Promise<readonly ReportProblem[]> {
    const { id: jobId, no, clientId, skidId } = job;
    const finishedAt = new Date(report.finishedAt);
    const removed = await fittedNow(
      tx,
      report.partsRemoved.map(({ positionId }) => positionId),
    );
    const recorded = await this.record.record(tx, {
      skidId,
      clientId,
      by: by.name,
      name: `Job ${no}: ${job.title}`.slice(0, 200),
      at: finishedAt,
      events,
      hand: handEntryOf(report, facts, by.name),
    });
    if (recorded.kind === 'refused')
      return recorded.problems.map(({ line, value, message }) => ({
        pointer: events[line - 1]?.pointer ?? '#',
        message: value === null ? message : `${value} ${message}`,
      }));
    const short = await this.stock.post(tx, { jobId, no, caller: by }, report, removed);
    if (short.length > 0) return short;
    await this.proofs.record(tx, job, by.name, report);
    await this.setState(tx, caller, by, job, report);
    await settleReport(tx, report.id, { loadNo: recorded.loadNo, state: 'counts', problems: [] });
    await setOutcomes(tx, jobId, report.tasks, finishedAt);
    const done = facts.tasks.filter(({ id }) => report.tasks.some(({ taskId, outcome }) => taskId === id && outcome === 'done'));
    await endDues(tx, skidId, done);
    await this.endBreakdown(tx, job, report);
    await this.followUp(tx, by, job, report);
    await this.moveOn(tx, by, job, report, finishedAt);
    await this.recompute.later(skidId, runnerOf(tx));
    return [];
  }

  /** The state before is kept with the change, so that it can be taken back. */
  private async setState(tx: Reader, caller: Caller, by: { id: string; name: string }, job: HeldJob, report: JobReportDto): Promise<void> {
    const { serviceState: to, finishedAt } = report;
    if (to == null) return;
    const { id: jobId, no, clientId, skidId } = job;
    const { serviceState: from } = await tx.skid.findUniqueOrThrow({ where: { id: skidId }, select: { serviceState: true } });
    await this.states.within(tx, caller, skidId, { state: to, note: `Job ${no}`, at: finishedAt });
    await addChange(tx, { jobId, clientId, byId: by.id, by: by.name, what: STATE_OF_SKID, from, to, toClient: true });
  }

  private async endBreakdown(tx: Reader, { id, kind }: HeldJob, { breakdown, outcome, finishedAt }: JobReportDto): Promise<void> {
    if (kind !== 'breakdown') return;
    const { restoredAt, downFrom, ...told } = breakdown ?? {};
    const moments = {
      ...(downFrom == null ? {} : { downFrom: new Date(downFrom) }),
      ...(restoredAt == null ? {} : { restoredAt: new Date(restoredAt) }),
    };
    const known = Object.fromEntries(Object.entries(told).filter(([, value]) => value != null));
    const row = await tx.breakdown.findUnique({ where: { jobId: id }, select: { downFrom: true, restoredAt: true } });
    // Whoever finishes the work of a skid that stopped leaves it giving water, unless they say when it did.
    const stopped = (moments.downFrom ?? row?.downFrom ?? null) !== null;
    const restored =
      outcome === 'finished' && stopped && row?.restoredAt == null && moments.restoredAt === undefined ? { restoredAt: new Date(finishedAt) } : {};
    await editBreakdown(tx, id, { ...known, ...restored, ...moments, ...(outcome === 'finished' && { endedBy: 'visit' }) });
  }

  private async followUp(tx: Reader, by: { id: string; name: string }, job: HeldJob, report: JobReportDto): Promise<void> {
    const skid = { id: job.skidId, clientId: job.clientId, siteId: job.siteId };
    const plain = report.followUps.filter(({ severity }) => severity == null);
    await this.makeJobs.make(
      tx,
      by,
      plain.map(({ title, request }) => ({
        skid,
        kind: 'follow-up' as const,
        title,
        request,
        bestOn: null,
        followsJobId: job.id,
        dues: [],
        tasks: [{ task: title, positionId: null, taskSheetId: null, expectedMinutes: null }],
      })),
    );
    for (const { title, request, severity } of report.followUps) {
      if (severity == null) continue;
      const at = new Date(report.finishedAt);
      const made = await openJob(tx, { skid, kind: 'breakdown', title, request, positionId: null, by }, { severity, source: 'technician', noticedAt: at });
      await editJob(tx, made.id, { followsJobId: job.id });
      await this.hooks.tellChanged(tx, { id: made.id, skidId: job.skidId, visitId: null });
    }
  }

  private async moveOn(tx: Reader, by: { id: string; name: string }, job: HeldJob, report: JobReportDto, finishedAt: Date): Promise<void> {
    const { id: jobId, clientId, skidId, visitId, state: from } = job;
    const finished = report.outcome === 'finished';
    const to = finished ? 'finished' : 'under way';
    await editJob(tx, jobId, { state: to, stateNote: '', finishedAt: finished ? finishedAt : null, finishedBy: finished ? by.name : null });
    await addChange(tx, { jobId, clientId, byId: by.id, by: by.name, what: 'report', from, to, note: report.note.slice(0, 500), toClient: finished });
    if (finished) await this.hooks.tellFinished(tx, { id: jobId, skidId, visitId });
    else await this.hooks.tellChanged(tx, { id: jobId, skidId, visitId });
  }
}
