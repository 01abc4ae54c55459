import { Injectable } from '@nestjs/common';
import { plainToInstance } from 'class-transformer';
import { type Caller, Clock, type Reader, Recompute, runnerOf } from '../app/index.js';
import { RecordWork } from '../intake/index.js';
import { ServiceStates, TakeBackFitting } from '../registry/index.js';
import { editBreakdown } from './breakdown-rows.repository.js';
import { JobHooks } from './job-hooks.js';
import { addChange, editJob, type HeldJob, STATE_OF_SKID } from './job-writes.repository.js';
import { ReportProofs } from './report-proofs.js';
import { ReportStock } from './report-stock.js';
import { clearOutcomes, type StoredReport, untouchedFollowUps } from './report-writes.repository.js';
import { JobReportDto } from './reports.dto.js';

/** Undoes what a sheet that counted has written, so that another one can count in its place. */
@Injectable()
export class TakeBackReport {
  constructor(
    private readonly stock: ReportStock,
    private readonly record: RecordWork,
    private readonly proofs: ReportProofs,
    private readonly fittings: TakeBackFitting,
    private readonly states: ServiceStates,
    private readonly hooks: JobHooks,
    private readonly recompute: Recompute,
    private readonly clock: Clock,
  ) {}

  /** Stock, part changes, facts, proofs, outcomes of tasks, state of the skid, breakdown, follow-ups that nobody has begun. Answers what stands in the way. */
  async takeBack(tx: Reader, caller: Caller, job: HeldJob, first: StoredReport): Promise<string[]> {
    const report = plainToInstance(JobReportDto, first.content);
    const problems = await this.stock.takeBack(tx, first.id, caller, this.clock.now(), `Job ${job.no}: another sheet counts`);
    for (const { positionId, at } of [...report.partsFitted, ...report.partsRemoved]) {
      const problem = await this.fittings.within(tx, positionId, new Date(at ?? report.finishedAt));
      if (problem !== null) problems.push(problem);
    }
    if (problems.length > 0) return problems;
    if (first.loadNo !== null) await this.record.takeBack(tx, job.skidId, first.loadNo, first.loadNo);
    await this.proofs.takeBack(tx, job.skidId, first.id);
    await clearOutcomes(
      tx,
      job.id,
      report.tasks.map(({ taskId }) => taskId),
    );
    await this.takeBackState(tx, job, report);
    await forgetBreakdown(tx, job, report);
    await this.dropFollowUps(tx, caller, job, report);
    await this.recompute.later(job.skidId, runnerOf(tx));
    return [];
  }

  private async takeBackState(tx: Reader, { id: jobId, skidId }: HeldJob, { serviceState, finishedAt }: JobReportDto): Promise<void> {
    if (serviceState == null) return;
    const told = await tx.jobChange.findFirst({ where: { jobId, what: STATE_OF_SKID, to: serviceState }, orderBy: { id: 'desc' }, select: { from: true } });
    await this.states.takeBack(tx, skidId, { state: serviceState, at: new Date(finishedAt), before: told?.from ?? serviceState });
  }

  private async dropFollowUps(tx: Reader, caller: Caller, job: HeldJob, report: JobReportDto): Promise<void> {
    const titles = report.followUps.map(({ title }) => title);
    for (const { id, clientId, skidId } of await untouchedFollowUps(tx, job.id, titles)) {
      const note = `The sheet of job ${job.no} that asked for it was set aside`;
      await editJob(tx, id, { state: 'dropped', stateNote: note });
      await addChange(tx, { jobId: id, clientId, byId: caller.id, by: caller.name, what: 'state', from: 'open', to: 'dropped', note, toClient: true });
      await this.hooks.tellChanged(tx, { id, skidId, visitId: null });
    }
  }
}

/** What the sheet said of the breakdown is not known any more. */
async function forgetBreakdown(tx: Reader, { id, kind }: HeldJob, { breakdown, outcome }: JobReportDto): Promise<void> {
  if (kind !== 'breakdown') return;
  const { restoredAt, downFrom, repairMinutes, failureMode, mechanism, cause, remedy } = breakdown ?? {};
  await editBreakdown(tx, id, {
    ...((outcome === 'finished' || restoredAt != null) && { restoredAt: null }),
    ...(outcome === 'finished' && { endedBy: null }),
    ...(downFrom != null && { downFrom: null }),
    ...(repairMinutes != null && { repairMinutes: null }),
    ...(failureMode != null && { failureMode: null }),
    ...(mechanism != null && { mechanism: null }),
    ...(cause !== undefined && { cause: '' }),
    ...(remedy !== undefined && { remedy: '' }),
  });
}
